#include "random_job.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <sstream>
#include <vector>

namespace lapwright::sample {

namespace {

// A length somewhere in [low, high] mm, on the half millimetre (in an inch file, on the sixteenth).
class Maker {
 public:
  explicit Maker(Generator& random) : random_(random) {}

  std::string job() {
    inches_ = random_.chance(0.15);
    out_ << R"({"format": "lapwright-job/1", "title": "made up", "unit": ")" << (inches_ ? "in" : "mm")
         << '"';
    if (random_.chance(0.9)) {
      out_ << R"(, "site": {"exposure": ")"
           << one_of({"sheltered", "moderate", "moderate", "severe", "very-severe"}) << "\"}";
    }
    practice();
    out_ << R"(, "slopes": [)";
    const std::int64_t slopes = random_.chance(0.1) ? 2 : 1;
    for (std::int64_t i = 0; i < slopes; ++i) {
      if (i > 0) out_ << ", ";
      slope();
    }
    out_ << "]}\n";
    return out_.str();
  }

 private:
  double pick(double low, double high) { return low + (high - low) * random_.unit(); }
  std::string one_of(const std::vector<const char*>& words) {
    return words[static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(words.size()) - 1))];
  }
  // A length as the file's bare number.
  std::string mm(double value) {
    std::ostringstream text;
    if (inches_) {
      text << static_cast<double>(static_cast<std::int64_t>(value / 25.4 * 16 + 0.5)) / 16.0;
    } else {
      text << static_cast<double>(static_cast<std::int64_t>(value * 2 + 0.5)) / 2.0;
    }
    return text.str();
  }
  std::string mm(double low, double high) { return mm(pick(low, high)); }
  std::string measured(double low, double high, double spread) {
    if (random_.chance(0.6)) return mm(low, high);
    const double value = pick(low, high);
    if (value < (inches_ ? 7 : 2)) return mm(value);
    return "[" + mm(value) + ", " + mm(0, spread < value / 2 ? spread : value / 2) + "]";
  }

  void practice() {
    std::vector<std::string> rules;
    const auto maybe = [&](const char* rule, double low, double high) {
      if (random_.chance(0.06)) rules.push_back('"' + std::string(rule) + "\": " + mm(low, high));
    };
    maybe("soaker.set_back", 0, 6);
    maybe("soaker.head_allowance", 0, 40);
    maybe("soaker.upstand", 75, 150);
    maybe("soaker.leg_least", 100, 160);
    maybe("soaker.proud", 50, 80);
    maybe("wall.water_line", 50, 150);
    maybe("step.turn_in", 25, 40);
    maybe("flashing.piece_most", 600, 1500);
    maybe("flashing.lap_along_wall", 100, 200);
    maybe("chase.height", 75, 150);
    maybe("wall.gap", 0, 20);
    if (rules.empty()) return;
    out_ << R"(, "practice": {)";
    for (std::size_t i = 0; i < rules.size(); ++i) out_ << (i > 0 ? ", " : "") << rules[i];
    out_ << '}';
  }

  void slope() {
    // Most roofs are ordinary; a few are small, long, flat or steep.
    const double pitch = random_.chance(0.85) ? pick(25, 55) : pick(11, 80);
    rafter_ = random_.chance(0.9)   ? pick(800, 7000)
              : random_.chance(0.5) ? pick(150, 800)
                                    : pick(7000, 15000);
    std::ostringstream degrees;
    degrees << static_cast<double>(static_cast<std::int64_t>(pitch * 10)) / 10.0;
    out_ << R"({"pitch": )";
    if (random_.chance(0.2)) {
      out_ << '[' << degrees.str() << ", 1]";
    } else {
      out_ << degrees.str();
    }
    out_ << R"(, "rafter": )" << mm(rafter_) << R"(, "width": )"
         << mm(random_.chance(0.9) ? pick(800, 9000) : pick(120, 800));
    covering();
    out_ << R"(, "junctions": [)";
    // Walls on either side; on one side several, one above another.
    const std::int64_t walls = random_.between(1, 3);
    double left_to = 0;
    for (std::int64_t i = 0; i < walls; ++i) {
      const bool left = i % 2 == 0;
      const double lowest = left ? left_to : 0;
      if (rafter_ - lowest < 60) continue;
      if (i > 0) out_ << ", ";
      const double to = wall(left ? "left" : "right", lowest);
      if (left) left_to = to;
    }
    out_ << "]}";
  }

  void covering() {
    if (random_.chance(0.45)) {
      length_ = random_.chance(0.6) ? 265 : pick(240, 340);
      const double width = random_.chance(0.6) ? 165 : pick(120, 230);
      out_ << R"(, "covering": {"kind": "plain-tile", "length": )" << mm(length_) << R"(, "width": )"
           << mm(width) << R"(, "thickness": )" << measured(9, 18, 3) << R"(, "made": ")"
           << one_of({"machine", "hand"}) << '"';
      if (random_.chance(0.5)) out_ << R"(, "camber": )" << measured(0, 8, 4);
      if (random_.chance(0.5)) out_ << R"(, "max_gauge": )" << mm(85, 115);
      if (random_.chance(0.2)) out_ << R"(, "headlap": )" << mm(55, 90);
    } else {
      static constexpr double kSizes[][2] = {{600, 300}, {500, 300}, {500, 250}, {450, 220},
                                             {400, 250}, {400, 200}, {350, 200}, {300, 200}};
      const auto& size = kSizes[static_cast<std::size_t>(random_.between(0, 7))];
      length_ = random_.chance(0.7) ? size[0] : pick(280, 650);
      const double width = std::min(random_.chance(0.7) ? size[1] : pick(150, 330), length_ - 20);
      out_ << R"(, "covering": {"kind": "slate", "length": )" << mm(length_) << R"(, "width": )" << mm(width)
           << R"(, "thickness": )" << measured(4, 12, 2) << R"(, "nailing": ")"
           << one_of({"centre", "centre", "head"}) << '"';
      if (random_.chance(0.5)) out_ << R"(, "headlap": )" << mm(60, length_ / 3);
      if (random_.chance(0.15)) out_ << R"(, "max_gauge": )" << mm(100, 260);
      if (random_.chance(0.3)) out_ << R"(, "joint": )" << mm(0, 8);
      if (random_.chance(0.15)) sets();
    }
    if (random_.chance(0.5)) out_ << R"(, "first_course": ")" << one_of({"unit", "unit-and-half"}) << '"';
    out_ << '}';
  }

  void sets() {
    out_ << R"(, "sets": [)";
    double length = length_;
    for (std::int64_t i = random_.between(1, 2); i > 0; --i) {
      out_ << R"({"length": )" << mm(length) << R"(, "courses": )" << random_.between(1, 5) << "}, ";
      length *= pick(0.8, 0.97);
    }
    out_ << R"({"length": )" << mm(length) << "}]";
  }

  // Returns where it ends, rounded up to the next whole sixteenth and more.
  double wall(const char* hand, double lowest) {
    out_ << R"({"kind": "side", "hand": ")" << hand << '"';
    double from = lowest;
    double to = rafter_;
    if (lowest > 0 || random_.chance(0.25)) {
      from = pick(lowest, lowest + (rafter_ - lowest) * 0.6);
      out_ << R"(, "from": )" << mm(from);
    }
    if (random_.chance(0.25)) {
      to = pick(from + (rafter_ - from) * 0.2, rafter_ - 1);
      out_ << R"(, "to": )" << mm(to);
    }
    if (random_.chance(0.4)) {
      out_ << R"(, "gap": )" << measured(0, 20, 3);
    } else if (random_.chance(0.2)) {
      out_ << R"(, "gap": [{"at": 0, "width": )" << measured(0, 10, 2) << R"(}, {"at": )" << mm(rafter_ / 2)
           << R"(, "width": )" << measured(5, 25, 2) << "}]";
    }
    if (random_.chance(0.5)) out_ << R"(, "soaker_head": ")" << one_of({"hooked", "batten", "flush"}) << '"';
    if (random_.chance(0.2)) out_ << R"(, "soaker_code": )" << random_.between(3, 4);
    if (random_.chance(0.2)) out_ << R"(, "flashing_code": )" << random_.between(3, 5);
    out_ << R"(, "wall": {)";
    const double kind = random_.unit();
    if (kind < 0.3) {
      out_ << R"("kind": ")" << one_of({"stone", "render"}) << '"';
    } else if (kind < 0.75) {
      out_ << R"("kind": "brick", "course": )" << measured(65, 95, 2) << R"(, "first_joint": )" << mm(0, 75);
    } else {
      joints(to - from);
    }
    out_ << "}}";
    return to + 2;
  }

  // Measured joints from the foot up, each interval a little different, further than any pitch needs.
  void joints(double run) {
    const bool goes_on = random_.chance(0.3);
    out_ << R"("kind": "brick", )";
    if (goes_on) out_ << R"("course": )" << mm(70, 80) << ", ";
    out_ << R"("joints": [)";
    const double most = goes_on ? run * 0.4 + 400 : run + 500;
    double z = pick(0, 75);
    out_ << mm(z);
    while (z < most) {
      z += pick(66, 90);
      out_ << ", " << mm(z);
    }
    out_ << ']';
  }

  Generator& random_;
  std::ostringstream out_;
  bool inches_ = false;
  double rafter_ = 0;
  double length_ = 0;
};

}  // namespace

std::string random_job(Generator& random) {
  return Maker(random).job();
}

namespace {

using Json = nlohmann::ordered_json;

// A bare length, or the value of [length, ±]. Lengths written as texts stay: such jobs hold nothing to mirror
// by its place.
bool is_bare(const Json& v) {
  return v.is_number() || (v.is_array() && v.size() == 2 && v[0].is_number());
}
double bare(const Json& v) {
  return v.is_array() ? v[0].get<double>() : v.get<double>();
}

void mirror_junction(Json& junction, const Json& slope) {
  if (junction.contains("hand")) junction["hand"] = junction["hand"] == "left" ? "right" : "left";
  if (!is_bare(slope["width"])) return;
  const double width = bare(slope["width"]);
  if (junction.contains("at") && is_bare(junction["at"])) junction["at"] = width - bare(junction["at"]);
  if (junction["kind"] == "top") {
    const double from = junction.contains("from") ? bare(junction["from"]) : 0;
    const double to = junction.contains("to") ? bare(junction["to"]) : width;
    junction["from"] = width - to;
    junction["to"] = width - from;
  }
  if (!junction.contains("line")) return;
  Json line = Json::array();  // walked the other way, so that the roof stays on its right
  for (std::size_t i = junction["line"].size(); i-- > 0;) {
    const Json& point = junction["line"][i];
    line.push_back(Json::array({width - bare(point[0]), point[1]}));
  }
  junction["line"] = line;
}

}  // namespace

std::string mirrored_job(const std::string& job) {
  Json all = Json::parse(job);
  for (Json& slope : all["slopes"]) {
    if (slope.contains("faces")) {
      const double faces = 360.0 - slope["faces"].get<double>();
      slope["faces"] = faces;
    }
    if (!slope.contains("junctions")) continue;
    for (Json& junction : slope["junctions"]) mirror_junction(junction, slope);
  }
  return all.dump(2);
}

std::string turned_job(const std::string& job, double degrees) {
  Json all = Json::parse(job);
  for (Json& slope : all["slopes"]) {
    if (slope.contains("faces"))
      slope["faces"] = std::fmod(slope["faces"].get<double>() + degrees + 360, 360);
  }
  return all.dump(2);
}

std::string random_house(Generator& random) {
  const auto whole = [&](std::int64_t low, std::int64_t high) {
    return static_cast<double>(random.between(low, high));
  };
  const bool slates = random.chance(0.5);
  const Json covering =
      slates ? Json{{"kind", "slate"}, {"length", 500}, {"width", 250}, {"thickness", 6}, {"headlap", 100}}
             : Json{{"kind", "plain-tile"}, {"length", 265}, {"width", 165}, {"thickness", 12}};
  const Json brick{{"kind", "brick"}, {"course", 75}, {"first_joint", 30}};
  const double pitch = whole(36, 60);
  const bool hip = random.chance(0.4);
  const bool mitred = hip || random.chance(0.3);
  const double first = whole(0, 359);
  const double apart = whole(50, 130) * (random.chance(0.5) ? 1 : -1);
  const auto slope = [&](const char* name, double its_pitch, double faces) {
    return Json{{"name", name},      {"pitch", its_pitch}, {"rafter", whole(3000, 4000)},
                {"width", 12'000.0}, {"faces", faces},     {"covering", covering}};
  };
  Json rear = slope("rear", pitch, first);
  Json junctions = Json::array();
  junctions.push_back({{"name", "stack"},
                       {"kind", "stack"},
                       {"at", whole(5500, 6500)},
                       {"front", whole(800, 1500)},
                       {"width", 665},
                       {"depth", whole(300, 500)},
                       {"corners", random.chance(0.5) ? "welded" : "bossed"},
                       {"wall", brick}});
  if (random.chance(0.5)) {
    junctions.push_back(
        {{"name", "soil pipe"}, {"kind", "pipe"}, {"at", 7500}, {"up", whole(900, 2000)}, {"diameter", 110}});
  }
  rear["junctions"] = junctions;
  const double second = pitch + (mitred ? 0 : whole(0, 4));
  Json join{{"kind", hip ? "hip" : "valley"}, {"slopes", Json::array({"rear", "wing"})}};
  if (mitred) join["detail"] = "mitred";
  const Json all{{"format", "lapwright-job/1"},
                 {"slopes", Json::array({rear, slope("wing", second, std::fmod(first + apart + 360, 360))})},
                 {"joins", Json::array({join})}};
  return all.dump(2);
}

}  // namespace lapwright::sample
