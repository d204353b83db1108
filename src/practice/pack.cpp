#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>
