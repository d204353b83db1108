#include <lapwright/draw/drawing.h>
#include <lapwright/draw/svg.h>

#include <gtest/gtest.h>
namespace {
using namespace lapwright::draw;
TEST(Svg, x) {
  Drawing d;
  d.add(circle({0, 0}, 5));
  EXPECT_NE(write_svg(d, "t", 1).find("<path"), std::string::npos);
}
}  // namespace
