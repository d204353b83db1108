#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
