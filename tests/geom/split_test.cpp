#include "sample_nets.h"

#include <gtest/gtest.h>

namespace {
using namespace lapwright;
using namespace lapwright::geom;
using namespace lapwright::geom::sample;

std::string faults_text(const Result<std::vector<Panel>>& panels) {
  std::string out;
  if (!panels) {
    for (const Fault& fault : panels.error()) out += to_line(fault) + "\n";
  }
  return out;
}

TEST(Split, soaker_has_leg_and_upstand) {
  const auto panels = split_into_panels(soaker(), at(50, 50));
  ASSERT_TRUE(panels) << faults_text(panels);
  ASSERT_EQ(panels->size(), 2U);
  EXPECT_EQ((*panels)[0].ring, rectangle(190, 100));
  EXPECT_EQ((*panels)[1].ring, (Ring{at(0, 100), at(190, 100), at(190, 175), at(0, 175)}));
  EXPECT_EQ((*panels)[1].parent, 0U);
  EXPECT_EQ((*panels)[1].hinge, 0U);
}

TEST(Split, hook_is_cut_free_of_the_upstand) {
  const auto panels = split_into_panels(hooked_soaker(), at(50, 50));
  ASSERT_TRUE(panels) << faults_text(panels);
  ASSERT_EQ(panels->size(), 3U);
  EXPECT_EQ((*panels)[1].ring, (Ring{at(0, 100), at(190, 100), at(215, 100), at(215, 175), at(0, 175)}));
  EXPECT_EQ((*panels)[2].ring, (Ring{at(190, 0), at(215, 0), at(215, 100), at(190, 100)}));
}

TEST(Split, every_step_has_its_turn_in) {
  const auto panels = split_into_panels(step_flashing(), at(10, -10));
  ASSERT_TRUE(panels) << faults_text(panels);
  ASSERT_EQ(panels->size(), 4U);
  for (std::size_t i = 1; i < 4; ++i) EXPECT_EQ((*panels)[i].parent, 0U);
}
}  // namespace
