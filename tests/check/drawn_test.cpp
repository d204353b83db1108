// The trace on paper and on a screen: the proof has every measure beside its limit and a page for each
// junction, with no word upon another, and a screen is handed the same picture.
#include "examining.h"
#include "planned.h"
#include "planning.h"

#include <lapwright/draw/expand.h>
#include <lapwright/sheets/sheets.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace lapwright {
namespace {

bool says(const draw::Page& page, std::string_view words) {
  const auto things = draw::expand(page.drawing);
  return std::any_of(things.begin(), things.end(), [&](const draw::Plain& thing) {
    const auto* text = std::get_if<draw::PlainText>(&thing);
    return text != nullptr && text->text.find(words) != std::string::npos;
  });
}

TEST(Drawn, proof_shows_measures_and_the_first_leak) {
  for (const char* file : {"tests/jobs/good/barn.json", "tests/jobs/cases/a07-step-and-cover.json",
                           "tests/jobs/cases/pipe-35.json"}) {
    auto planned = engine::plan_job(sample::file_bytes(file));
    ASSERT_TRUE(planned) << file;
    engine::examine(*planned, {.draw = true});
    const sheets::Sources sources{planned->survey, planned->plan, planned->pack, planned->catalogue,
                                  &planned->proof};
    const draw::Document proof = sheets::papers(sources, {sheets::Paper::proof});
    std::size_t water = 0;
    std::size_t measures = 0;
    for (const draw::Page& page : proof.pages) {
      for (const draw::TextTrouble& t : draw::text_troubles(page, 5))
        ADD_FAILURE() << file << ", " << page.title << ": " << t.text << " / " << t.other;
      measures += page.title.find("Measured in place") != std::string::npos ? 1U : 0U;
      if (page.title.find("Water at") == std::string::npos) continue;
      ++water;
      EXPECT_TRUE(says(page, "first leak")) << file;
    }
    EXPECT_GE(measures, 1U) << file;
    EXPECT_EQ(water, planned->proof.traces.size()) << file;
    EXPECT_GE(water, 1U) << file;
    std::size_t on_screen = 0;
    for (const sheets::ScreenPicture& picture : sheets::pictures(sources, {}))
      on_screen += picture.name.starts_with("water/") ? 1U : 0U;
    EXPECT_EQ(on_screen, water) << file;
  }
}

}  // namespace
}  // namespace lapwright
