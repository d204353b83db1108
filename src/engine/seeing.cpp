#include "seeing.h"

#include "examining.h"
#include "outcome.h"
#include "planning.h"

#include <lapwright/draw/svg.h>
#include <lapwright/job/write_plan.h>

namespace lapwright::engine {

Document on_screen(const sheets::ScreenPicture& picture) {
  constexpr double kMargin = 2;
  draw::SvgOptions options;
  options.white_ground = false;
  options.xml_header = false;
  options.ink = "currentColor";
  options.paper = "var(--paper)";
  options.scale = picture.scale;
  return {picture.name, "image/svg+xml", draw::write_svg(picture.drawing, picture.title, kMargin, options)};
}

Outcome see(const Request& request) {
  auto planned = plan_job(request.job);
  if (!planned) return unreadable(planned.error());
  examine(*planned, {.draw = true, .odds = request.odds});
  Outcome out;
  out.status = has_wrong(planned->plan) ? Status::wrong : Status::done;
  out.json = job::write_plan(planned->plan);
  const sheets::Sources sources{planned->survey, planned->plan, planned->pack, planned->catalogue,
                                &planned->proof};
  for (const sheets::ScreenPicture& picture :
       sheets::pictures(sources, {request.room_width, request.room_height})) {
    out.documents.push_back(on_screen(picture));
  }
  return out;
}

}  // namespace lapwright::engine
