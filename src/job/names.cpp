// The words of the file formats. One table per choice: the reader, the schema and the writer all take them
// from here.
#include <lapwright/job/face.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/job/yard.h>

#include "words.h"

namespace lapwright::job {

std::string_view name_of(Per v) {
  return kPerWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Exposure v) {
  return kExposureWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(ShownIn v) {
  return kShownInWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(CoveringKind v) {
  return kCoveringKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Nailing v) {
  return kNailingWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Made v) {
  return kMadeWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(JunctionKind v) {
  return kJunctionKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(FaceKind v) {
  return kFaceKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Hand v) {
  return kHandWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(WallKind v) {
  return kWallKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(HeadFixing v) {
  return kHeadFixingWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(FirstUnit v) {
  return kFirstUnitWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(JoinKind v) {
  return kJoinKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(JoinDetail v) {
  return kJoinDetailWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Detail v) {
  return kDetailWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Gives v) {
  return kGivesWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(FoundKind v) {
  return kFoundKindWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Rain v) {
  return kRainWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(SoakerMetal v) {
  return kSoakerMetalWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Corners v) {
  return kCornersWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Standing v) {
  return kStandingWords[static_cast<std::size_t>(v)];
}
std::string_view name_of(Level v) {
  return kLevelWords[static_cast<std::size_t>(v)];
}

}  // namespace lapwright::job
