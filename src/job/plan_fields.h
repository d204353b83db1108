// What stands in a plan's JSON, told once: write_plan.cpp hands in a writer, plan_schema.cpp a maker of
// schemas.
//
// fields(out, thing) names the members of an object in the order in which they are written; row(out, thing)
// the entries of a fixed-length list. `When::given` members are left out while empty, so that plans stay
// small.
#pragma once

#include <lapwright/job/plan.h>

#include <algorithm>
#include <string>
#include <vector>

#include "words.h"

namespace lapwright::job {

enum class When : std::uint8_t { always, given };

inline constexpr std::string_view kPlanFormat = "lapwright-plan/1";
inline constexpr std::string_view kFindingsFormat = "lapwright-findings/1";
inline constexpr std::int64_t kNoCourse = -2;

inline std::optional<std::int64_t> course_or_none(std::int64_t course) {
  return course == kNoCourse ? std::optional<std::int64_t>() : course;
}

// The course of a piece whose placements all share one.
inline std::optional<std::int64_t> shared_course(const Piece& piece) {
  if (piece.placements.empty()) return std::nullopt;
  const std::int64_t first = piece.placements.front().course;
  const bool same = std::all_of(piece.placements.begin(), piece.placements.end(),
                                [&](const Placement& p) { return p.course == first; });
  return same ? course_or_none(first) : std::nullopt;
}

struct LengthFromCourse {
  Length length;
  std::int64_t course = 0;
};

template <class Out>
void row(Out& out, const geom::GridPoint& p) {
  out.mm(geom::to_length(p.x));
  out.mm(geom::to_length(p.y));
}
template <class Out>
void row(Out& out, const UnitRun& run) {
  out.mm(run.width);
  out.count(run.count);
}
template <class Out>
void row(Out& out, const Batten& batten) {
  out.mm(batten.mark);
  out.count(batten.course);
}
template <class Out>
void row(Out& out, const LengthFromCourse& v) {
  out.mm(v.length);
  out.count(v.course);
}
template <class Out>
void row(Out& out, const Row::NailLeftOut& v) {
  out.count(v.unit);
  out.word(name_of(v.side), kHandWords);
}

template <class Out>
void fields(Out& out, const Term& v) {
  out.text("symbol", "As it stands in the formula.", v.symbol);
  out.number("value", "In `unit`.", v.value);
  out.text("unit", "Empty for a count or a ratio.", v.unit);
  out.text("from", "Where the value comes from.", v.from);
}

template <class Out>
void fields(Out& out, const Figure& v) {
  out.number("value", "In `unit`.", v.value);
  out.text("unit", "Empty for a count or a ratio.", v.unit);
  out.text("formula",
           "Of the terms' symbols, numbers, + - * / ( ) and min max ceil floor sin cos tan sqrt, angles in "
           "degrees.",
           v.formula);
  out.list("terms", "What the formula is made of.", v.terms, When::always);
  out.text("rule", "The practice rule that decides; absent when geometry alone does.", v.rule, When::given);
  out.text("source", "Where the rule or the formula comes from.", v.source);
  out.word("standing", "How far it may be trusted.", name_of(v.standing), kStandingWords);
}

template <class Out>
void fields(Out& out, const SetAlternative& v) {
  out.number("value", "Headlap, mm.", v.value);
  out.text("source", "The table.", v.source);
  out.word("standing", "How far it may be trusted.", name_of(v.standing), kStandingWords);
  out.flag("chosen", "The one that this plan uses.", v.chosen);
}

template <class Out>
void fields(Out& out, const SetOut& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.mm("gauge", "Of the eaves set.", v.gauge);
  out.mm("headlap", "The least over all courses.", v.headlap);
  out.count("courses", "Number of courses, without the under-course.", v.courses);
  out.lengths("tails", "Up the slope, one a course, eaves first.", v.tails);
  std::vector<LengthFromCourse> lengths;
  for (std::size_t i = 0; i < v.lengths.size() && i < v.length_from_course.size(); ++i) {
    lengths.push_back({v.lengths[i], v.length_from_course[i]});
  }
  out.rows("lengths", "Unit length before the cut at the top edge, and the course from which it holds.",
           lengths, When::always);
  out.rows("battens", "Upper edge up the slope, and the course; -1 is the under-course.", v.battens,
           When::given);
  out.named("figures", "Each number of the set-out, explained.", v.figures);
  out.list("headlaps", "Every table that answers.", v.headlaps, When::given);
}

template <class Out>
void fields(Out& out, const geom::Fold& v) {
  out.point("from", "Start, mm on the net.", v.from);
  out.point("to", "End, mm on the net.", v.to);
  out.number("angle", "Degrees that the moving part leaves its neighbour's plane by.", v.angle.in_degrees());
  out.flag("up", "Towards the viewer of the outward face.", v.up);
}

template <class Out>
void fields(Out& out, const geom::Cut& v) {
  out.point("from", "Start, mm on the net.", v.from);
  out.point("to", "End, mm on the net.", v.to);
  out.flag("worked", "True where the sheet is bossed along this line, not cut.", v.worked, When::given);
}

template <class Out>
void fields(Out& out, const Placement& v) {
  out.count("course", "Absent when it is not tied to one.", course_or_none(v.course));
  out.place("origin", "Where the net's (0, 0) lies: u, s, n of the slope, mm.", v.frame.origin);
  out.direction("x_axis", "The net's x in the slope's frame.", v.frame.x_axis);
  out.direction("y_axis", "The net's y in the slope's frame.", v.frame.y_axis);
}

template <class Out>
void fields(Out& out, const Piece& v) {
  out.text("mark", "Identical pieces share one.", v.mark);
  out.text("kind", "soaker, step-flashing, apron, ...", v.kind);
  out.text("slope", "Name of the slope.", v.slope);
  out.text("junction", "Name of the junction on that slope.", v.junction, When::given);
  out.text("face", "Of a junction with several: front, left side, back, ...", v.face, When::given);
  out.count("course", "Present where all placements share one.", shared_course(v));
  out.count("count", "How many of it.", v.count);
  out.count("code", "Lead code; absent in other metals.", v.code);
  out.text("metal", "Other than lead.", v.metal, When::given);
  out.mm("thickness", "Of another metal.", v.thickness);
  out.mm("length", "Of the blank, along the junction; of a soaker up the slope.", v.length);
  out.mm("width", "Of the blank, across it.", v.width);
  out.rows("outline", "The net's outline, counter-clockwise seen from the weather side, mm.", v.net.outline,
           When::always);
  out.rings("holes", "Clockwise, mm.", v.net.holes);
  out.list("folds", "In bending order.", v.net.folds, When::given);
  out.list("cuts", "Snips from the edge inwards.", v.net.cuts, When::given);
  out.number("area", "mm2, of one net less its holes.", v.area.in_mm2());
  out.number("mass", "kg, of one.", v.mass.in_kg());
  out.named("figures", "Each number of the piece, explained.", v.figures);
  out.list("placements", "Where each of them sits.", v.placements, When::given);
  out.flag("wrong", "True of a detail that is wrong here: shown to see why, never to be made.", v.wrong,
           When::given);
}

struct Nail {
  Length up;
  Length in;
};
template <class Out>
void fields(Out& out, const Nail& v) {
  out.mm("up", "From the unit's tail.", v.up);
  out.mm("in", "In from each of its sides.", v.in);
}

template <class Out>
void fields(Out& out, const Row::Rake& v) {
  out.mm("at_tail", "Along the eaves, at the row's tail.", v.at_tail);
  out.mm("at_head", "Along the eaves, at its head.", v.at_head);
}

template <class Out>
void fields(Out& out, const Row& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.count("course", "-1 is the under-course.", v.course);
  out.mm("tail", "Up the slope.", v.tail);
  out.mm("length", "Of its units as laid.", v.length);
  out.mm("from", "Left edge of the first unit, along the eaves.", v.from);
  out.rows("widths", "Unit width and how many of it, left to right.", v.widths, When::always);
  out.mm("gap", "Open perp between neighbours.", v.gap);
  out.object("left_rake", "Line that the row's left end is cut to, where it is not square to the course.",
             v.left_rake.value_or(Row::Rake{}), v.left_rake.has_value());
  out.object("right_rake", "The same at its right end.", v.right_rake.value_or(Row::Rake{}),
             v.right_rake.has_value());
  out.object("nail", "Where units are nailed; absent when they are not.", Nail{v.nail_up, v.nail_in},
             v.nailed);
  out.rows("nails_left_out", "Unit, counted from 0 at the left, and the side on which it has no nail.",
           v.nails_left_out, When::given);
}

template <class Out>
void fields(Out& out, const Finding& v) {
  out.word("level", "How bad it is.", name_of(v.level), kLevelWords);
  out.text("rule", "Names the text in the catalogue.", v.rule);
  out.params("params", "The values that the text takes in.", v.params);
  out.text("text", "The sentence in English.", v.text);
  out.number("value", "What was found.", v.value);
  out.number("limit", "What the rule asks for.", v.limit);
  out.text("source", "Where the rule comes from.", v.source, When::given);
  out.text("where", "Slope / junction / course, or a JSON path of the input.", v.where, When::given);
}

template <class Out>
void fields(Out& out, const Choice& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.text("junction", "Name of the junction.", v.junction);
  out.text("face", "Of a junction with several.", v.face, When::given);
  out.text("detail", "Its word in a job file.", v.detail);
  out.word("level", "note: right; doubt: allowed with a reason to hesitate; wrong.", name_of(v.level),
           kLevelWords);
  out.flag("taken", "The one that is planned, or refused though insisted on.", v.taken, When::given);
  out.text("rule", "Names the reason in the catalogue.", v.rule);
  out.params("params", "The values that the text takes in.", v.params);
  out.text("text", "The reason in English.", v.text);
  out.text("source", "Where the reason comes from.", v.source);
}

template <class Out>
void fields(Out& out, const WorkStep& v) {
  out.text("slope", "Name of the slope.", v.slope, When::given);
  out.text("junction", "Name of the junction.", v.junction, When::given);
  out.count("course", "Absent when it is not tied to one; -1 is the under-course.", course_or_none(v.course));
  out.text("step", "Names the text in the catalogue.", v.step);
  out.text("mark", "The piece that the step fits.", v.mark, When::given);
  out.params("params", "The values that the text takes in.", v.params);
  out.text("text", "The sentence in English.", v.text);
}

template <class Out>
void fields(Out& out, const OverrideUsed& v) {
  out.text("rule", "Name of the rule.", v.rule);
  out.number("value", "The job's own.", v.value);
  out.number("pack_value", "What the pack says.", v.pack_value);
  out.text("unit", "Of both.", v.unit);
}

template <class Out>
void fields(Out& out, const MemoryUsed& v) {
  out.text("rule", "Name of the rule.", v.rule);
  out.number("value", "What was used.", v.value);
  out.text("unit", "Its unit.", v.unit);
}

template <class Out>
void fields(Out& out, const PracticeUsed& v) {
  out.text("pack", "Name and edition of the rule pack.", v.pack);
  out.list("overrides", "Rules that the job set its own value for.", v.overrides, When::given);
  out.list("from_memory", "Values used in this plan that rest on memory.", v.from_memory, When::given);
}

template <class Out>
void fields(Out& out, const EstimateLine& v) {
  out.text("group", "covering, battens, timber, fixings, lead, finishing, labour or access.", v.group);
  out.text("item", "Names the text in the catalogue.", v.item);
  out.text("slope", "Name of the slope; absent when the line is of the whole job.", v.slope, When::given);
  out.params("params", "The values that the text takes in.", v.params);
  out.text("text", "What it is, in English.", v.text);
  out.number("quantity", "What to buy or to allow, waste included.", v.quantity);
  out.text("unit", "Empty for pieces; m, m2, kg, l, h, days, weeks.", v.unit);
  out.object("figure", "Where the quantity comes from.", v.figure, true);
}

template <class Out>
void fields(Out& out, const BattenRun& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.count("count", "How many battens are cut so.", v.count);
  out.lengths("lengths", "From the left end; joints lie on rafters.", v.lengths);
}

template <class Out>
void fields(Out& out, const Estimate& v) {
  out.lines("lines", "What to buy and what work to allow for.", v.lines);
  out.list("battens", "How the battens are cut, joints staggered.", v.battens, When::given);
}

template <class Out>
void fields(Out& out, const CutPiece& v) {
  out.text("mark", "The piece.", v.mark);
  out.mm("x", "Low corner of its box: along the roll.", v.x);
  out.mm("y", "And across it.", v.y);
  out.flag("turned", "A quarter: the net's x runs across the roll.", v.turned);
  out.flag("reversed", "End for end about the middle of its box: the other half of a head-to-tail pair.",
           v.reversed, When::given);
}

template <class Out>
void fields(Out& out, const CutStep& v) {
  out.text("part", "What is cut: roll, or a name that an earlier step gave.", v.part);
  out.word("way", "Across or along the roll, or along the teeth of a pair.",
           kCutWayWords[static_cast<std::size_t>(v.way)], kCutWayWords);
  out.lengths("at", "By tape from the end or edge of the part.", v.at);
  out.names("gives", "The parts from there on; empty: left over.", v.gives);
  out.count("cuts", "Of the knife, over all parts of that name.", v.cuts);
}

template <class Out>
void fields(Out& out, const CutLeft& v) {
  out.mm("x", "Along the roll.", v.x);
  out.mm("y", "Across it.", v.y);
  out.mm("length", "Along the roll.", v.length);
  out.mm("width", "Across it.", v.width);
  out.flag("keep", "Worth keeping; otherwise scrap.", v.keep);
}

template <class Out>
void fields(Out& out, const CutRoll& v) {
  out.text("name", "On the sheets.", v.name);
  out.count("code", "Thickness class.", v.code);
  out.mm("width", "Across it.", v.width);
  out.mm("length", "Along it.", v.length);
  out.count("count", "How many are cut like this.", v.count);
  out.flag("offcut", "From the rack, not bought.", v.offcut, When::given);
  out.number("price", "Of one, pence or cents.", v.price);
  out.number("mass", "kg, of one.", v.mass.in_kg());
  out.list("pieces", "Where each piece lies.", v.pieces, When::always);
  out.list("cuts", "In the order of the hand.", v.cuts, When::always);
  out.list("left", "What is left over.", v.left, When::given);
}

template <class Out>
void fields(Out& out, const CutProof::Price& v) {
  out.text("mark", "The piece.", v.mark);
  out.count("price", "In 1/scale of thousandths of a penny or cent.", v.price);
}

template <class Out>
void fields(Out& out, const CutProof::Box& v) {
  out.mm("length", "Along the roll when it is not turned.", v.length);
  out.mm("width", "Across it.", v.width);
  out.names("marks", "The pieces in it.", v.marks);
}

template <class Out>
void fields(Out& out, const CutProof& v) {
  out.count("scale", "Of the prices.", v.scale);
  out.list("prices", "At which no strip pattern is worth more than its stock.", v.prices, When::given);
  out.list("boxes", "Rectangles that pieces may be cut from: one piece each, or several head to tail.",
           v.boxes, When::given);
  out.mm("straight_step",
         "Of the bound on straight cutting: sides are rounded down to steps of this; 0: not proven.",
         v.straight_step);
  out.count("straight_scale", "Of its prices, in 1/1024.", v.straight_scale);
  out.list("straight_prices",
           "Its prices: at them the most that a roll can be worth, however it is cut, bounds the cost.",
           v.straight_prices, When::given);
}

template <class Out>
void fields(Out& out, const CutCode& v) {
  out.count("code", "Thickness class.", v.code);
  out.number("cost", "Bought, less what is kept and what scrap brings.", v.cost);
  out.number("any", "No cutting at all can be cheaper.", v.any);
  out.number("straight", "No straight edge-to-edge cutting can; 0 where that was not worked out.",
             v.straight);
  out.number("strips", "No strip cutting can.", v.strips);
  out.number("searched", "The cheapest strip cutting of a small job, every one of them tried; 0: not tried.",
             v.searched);
  out.flag("best_strips", "No strip cutting is cheaper than this plan.", v.best_strips, When::given);
  out.object("proof", "Of the bounds on strip cutting and on straight cutting.", v.proof, true);
}

template <class Out>
void fields(Out& out, const CutRefusal& v) {
  out.text("mark", "The piece.", v.mark);
  out.count("count", "How many of it are not cut.", v.count);
  out.word("why", "What stands in the way.", v.why.empty() ? kRefusalWords[0] : std::string_view(v.why),
           kRefusalWords);
}

template <class Out>
void fields(Out& out, const HandMethod& v) {
  out.number("cost", "In pence or cents, less what scrap brings.", v.cost);
  out.number("bought_kg", "What it buys.", v.bought.in_kg());
}

struct Bounds {
  double any = 0;
  double straight = 0;
  double strips = 0;
};
template <class Out>
void fields(Out& out, const Bounds& v) {
  out.number("any", "Of the gap to the bound on any cutting at all, as a share.", v.any);
  out.number("straight", "To the bound on straight cuts from edge to edge.", v.straight);
  out.number("strips", "To the bound on strip cutting; below 0 where this plan beats all strip cutting.",
             v.strips);
}

template <class Out>
void fields(Out& out, const Cutting& v) {
  out.text("currency", "Three letters; money is in its hundredth part.", v.currency);
  out.flag("invented_yard", "No yard file: widths, lengths and prices are made up.", v.invented_yard,
           When::given);
  out.list("rolls", "What is cut, and how.", v.rolls, When::always);
  out.list("bounds", "What no plan can be cheaper than, for each code.", v.codes, When::always);
  out.list("refused", "Pieces that are not cut, and why.", v.refused, When::given);
  out.number("bought_kg", "Lead bought.", v.bought.in_kg());
  out.number("from_rack_kg", "Lead taken from the rack.", v.from_rack.in_kg());
  out.number("used_kg", "In pieces.", v.used.in_kg());
  out.number("kept_kg", "In offcuts worth keeping.", v.kept.in_kg());
  out.number("scrap_kg", "The rest.", v.scrap.in_kg());
  out.number("price", "Of what is bought.", v.price);
  out.number("order", "What the merchant asks: the price, or the minimum order.", v.order);
  out.number("kept_worth", "Of what is kept, less what was taken from the rack.", v.kept_worth);
  out.number("scrap_worth", "What the scrap brings.", v.scrap_worth);
  out.number("cost", "The price less both.", v.cost);
  out.count("cuts", "Cuts of the knife.", v.cuts);
  out.count("widths", "Different widths of roll bought.", v.widths);
  out.object("gap", "How far above the best the cost can be.",
             Bounds{v.gap_any, v.gap_straight, v.gap_strips}, true);
  out.object("hand", "By width, first fit: what a hand would do without a plan.", v.hand, true);
}

template <class Out>
void fields(Out& out, const PriceLine& v) {
  out.text("group", "As in the estimate.", v.group);
  out.text("item", "As in the estimate.", v.item);
  out.text("slope", "Absent when it is of the whole job.", v.slope, When::given);
  out.text("text", "What it is, in English.", v.text);
  out.number("quantity", "In `per`.", v.quantity);
  out.text("per", "piece, m, m2, kg, l, hour, day, week or length.", v.per);
  out.count("price", "Of one, in pence or cents; absent: missing.", v.price);
  out.count("amount", "Absent where the price is missing.", v.amount);
}

template <class Out>
void fields(Out& out, const PriceSum& v) {
  out.text("name", "materials, labour, access, overheads, margin, net, vat or total.", v.name);
  out.count("amount", "In pence or cents.", v.amount);
  out.object("figure", "How it is reckoned.", v.figure, true);
}

template <class Out>
void fields(Out& out, const Price::Provisional& v) {
  out.text("what", "What may turn out to be needed.", v.what);
  out.count("price", "In pence or cents, not in the total.", v.price);
}

template <class Out>
void fields(Out& out, const Price& v) {
  out.text("currency", "Three letters; money is in its hundredth part.", v.currency);
  out.text("yard", "Title of the yard file.", v.yard, When::given);
  out.flag("invented", "The yard says that its prices are invented.", v.invented, When::given);
  out.lines("lines", "Line by line.", v.lines);
  out.list("sums", "In the order of reckoning.", v.sums, When::always);
  out.count("missing", "Lines without a price; the sums go without them.", v.missing);
  out.count("vat", "Hundredths of a percent; absent: not reckoned.", v.vat);
  out.count("valid_days", "How long a quote holds; 0: not said.", v.valid_days);
  out.names("not_included", "What a quote says is not included.", v.not_included);
  out.list("provisional", "Allowed for, not in the total.", v.provisional, When::given);
}

template <class Out>
void fields(Out& out, const Frontier::Point& v) {
  out.number("drift", "Degrees off the line of fall.", v.drift);
  out.number(
      "climb",
      "How far up it stands at that drift, mm, or at least as far as the covering; below 0: not that drift.",
      v.climb);
  out.number("covering", "How far up the covering alone stands there.", v.covering);
}

template <class Out>
void fields(Out& out, const Frontier& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.text("junction", "Name of the junction.", v.junction);
  out.number("drift", "Degrees off the line of fall that it stands; below 0: it leaks without any.", v.drift);
  out.number("climb", "How far up along the units water may be driven, mm; below 0: it leaks without.",
             v.climb);
  out.number("rise", "The same as a head of water, mm.", v.rise);
  out.number("wind", "The wind that holds up such a head, m/s.", v.wind);
  out.number("covering_drift", "The drift that the covering alone stands.", v.covering_drift);
  out.number("covering_climb", "The climb that the covering alone stands.", v.covering_climb);
  out.number("run", "How far it runs up the slope, mm: side-creep grows with it.", v.run);
  out.count("courses", "Courses along that run.", v.courses);
  out.list("points", "Between the two ends: what it stands of drift and climb together.", v.points,
           When::given);
  out.flag("holds", "It stands no less than the covering does, but for what the soakers lie back.", v.holds);
}

template <class Out>
void fields(Out& out, const Suspect::Fit& v) {
  out.text("mark", "Of this plan.", v.mark);
  out.text("kind", "Kind of piece.", v.kind);
  out.count("count", "How many.", v.count);
}

template <class Out>
void fields(Out& out, const Suspect& v) {
  out.text("slope", "Name of the slope.", v.slope);
  out.text("junction", "Name of the junction.", v.junction);
  out.text("face", "Of a junction with several.", v.face, When::given);
  out.text("found", "As the job says; absent where nothing was noted.", v.found, When::given);
  out.text("piece", "Kind of piece.", v.piece, When::given);
  out.count("course", "Counted as findings do, 1 at the eaves; absent when it is not tied to one.",
            v.course > 0 ? std::optional<std::int64_t>(v.course) : std::nullopt);
  out.count("as_built", "Index into the job's list.",
            v.as_built >= 0 ? std::optional<std::int64_t>(v.as_built) : std::nullopt);
  out.word("gives", "What it takes before water comes through.", name_of(v.gives), kGivesWords);
  out.number("drift", "Degrees off the line of fall that it stands; below 0: it leaks without any.", v.drift);
  out.number("climb", "How far up along the units water may be driven, mm.", v.climb);
  out.number("rise", "The same as a head of water, mm.", v.rise);
  out.number("wind", "The wind that holds up such a head, m/s.", v.wind);
  out.number("covering_drift", "The drift that the covering alone stands.", v.covering_drift);
  out.number("covering_climb", "The climb that the covering alone stands.", v.covering_climb);
  out.number("wind_from", "Bearing of the wind in which it gives first.", v.wind_from);
  out.number("u", "Where it comes through first: along the eaves.", v.u);
  out.number("s", "And up the slope.", v.s);
  out.count("strip_from", "Lowest course whose units come off beside it; 0: none.", v.strip_from);
  out.count("strip_to", "Highest of them.", v.strip_to);
  out.list("fit", "What to fit.", v.fit, When::always);
  out.names("rules", "Rules of the findings that it alone makes.", v.rules);
  out.counts("leaks", "The noted leaks that it explains, by index.", v.leaks);
  out.number("score", "How well it explains them.", v.score);
  out.count("hose", "Its turn in a test with a hose, from the lowest up.", v.hose);
  out.names("texts", "What was found, when it gives and what to do, in English.", v.texts);
}

template <class Out>
void fields(Out& out, const Unexplained& v) {
  out.count("leak", "Index into the job's list.", v.leak);
  out.text("when", "As the job says.", v.when, When::given);
  out.names("causes", "What else it may be: condensation, stack, gutter, wall, covering.", v.causes);
  out.text("text", "The same in English.", v.text);
}

template <class Out>
void fields(Out& out, const Existing& v) {
  out.lines("findings", "Of the roof as it was found.", v.findings);
  out.list("suspects", "The likeliest first.", v.suspects, When::always);
  out.list("unexplained", "Noted leaks that the lead does not explain.", v.unexplained, When::always);
}

template <class Out>
void fields(Out& out, const Odds& v) {
  out.text("rule", "Of a finding.", v.rule);
  out.text("slope", "Name of the slope.", v.slope);
  out.text("junction", "Name of the junction.", v.junction, When::given);
  out.text("where", "Of the nearest to its limit, as planned.", v.where);
  out.number("value", "As planned, mm.", v.value);
  out.number("limit", "What the rule asks for.", v.limit);
  out.flag("at_most", "The limit is the most.", v.at_most, When::given);
  out.number("chance", "That it does not hold, 0 to 1.", v.chance);
  out.text("matters", "What moves it most: thickness, camber, length, rafter, joints or cutting.", v.matters);
  out.number("moves", "The shift that this alone makes, root mean square, mm.", v.moves);
}

template <class Out>
void fields(Out& out, const Plan& v) {
  out.format("format", kPlanFormat);
  out.text("title", "The job's title.", v.title);
  out.text("engine", "Version of the engine.", v.engine);
  out.text("fingerprint", "A short hash of job, yard, pack and engine version.", v.fingerprint);
  out.object("practice", "The rules that this plan used.", v.practice, true);
  out.lines("set_out", "Courses and gauges, one entry a slope.", v.set_out);
  out.lines("pieces", "Every piece of metal.", v.pieces);
  out.lines(
      "rows",
      "Covering units, course by course and each from left to right: a stack parts a course into several.",
      v.rows);
  out.lines("choices", "Every detail as judged at every face, the right one first.", v.choices);
  out.lines("findings", "What was found wrong, doubtful or worth a note.", v.findings);
  out.object("existing", "What the roof that stands already lets through; absent where the job does not say.",
             v.existing.value_or(Existing{}), v.existing.has_value());
  out.list("odds", "How likely each measured rule is not to hold, where that was asked for.", v.odds,
           When::given);
  out.lines("check", "The weather that every traced junction stands, beside the covering's own.", v.check);
  out.lines("order_of_work", "The fitting list.", v.order_of_work);
  out.object("estimate", "What to buy, and the work to allow for.", v.estimate, true);
  out.object("price", "What it costs; absent without a yard file that prices.", v.price.value_or(Price{}),
             v.price.has_value());
  out.object("cutting", "The cutting list; absent where no lead is to be cut.", v.cutting.value_or(Cutting{}),
             v.cutting.has_value());
}

struct FindingList {
  const std::vector<Finding>& findings;
  const Plan& plan;
};
template <class Out>
void fields(Out& out, const FindingList& v) {
  out.format("format", kFindingsFormat);
  out.lines("findings", "What was found wrong, doubtful or worth a note.", v.findings);
  out.object("existing", "What the roof that stands already lets through.",
             v.plan.existing.value_or(Existing{}), v.plan.existing.has_value());
  out.list("odds", "How likely each measured rule is not to hold, where that was asked for.", v.plan.odds,
           When::given);
}

}  // namespace lapwright::job
