#include <lapwright/pieces/plan_slope.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

// A person shouts these across a scaffold: one letter a kind, none that sounds like another's figure.
constexpr std::array<std::pair<std::string_view, std::string_view>, 15> kLetters{{
    {"soaker", "S"},
    {"step-flashing", "F"},
    {"cover-flashing", "C"},
    {"apron", "A"},
    {"back-gutter", "G"},
    {"corner", "K"},
    {"saddle", "D"},
    {"step-and-cover", "T"},
    {"secret-gutter", "R"},
    {"pipe-slate", "P"},
    {"pipe-sleeve", "U"},
    {"valley", "V"},
    {"valley-saddle", "D"},
    {"mitred-soaker", "M"},
    {"cheek-flashing", "H"},
}};

std::string_view mark_letter(const job::Piece& piece) {
  if (piece.wrong) return "X";  // crossed out
  for (const auto& [kind, letter] : kLetters) {
    if (piece.kind == kind) return letter;
  }
  return "X";
}

bool same_piece(const job::Piece& a, const job::Piece& b) {
  return a.wrong == b.wrong && a.kind == b.kind && a.code == b.code && a.metal == b.metal &&
         a.length == b.length && a.width == b.width && geom::same_net(a.net, b.net);
}

}  // namespace

void give_marks(std::vector<SlopePlan>& plans) {
  struct Marked {
    const job::Piece* piece;
    std::string mark;
  };
  std::vector<Marked> seen;
  std::vector<std::pair<std::string_view, std::int64_t>> last_number;
  for (SlopePlan& plan : plans) {
    for (job::Piece& piece : plan.pieces) {
      const auto twin = std::find_if(seen.begin(), seen.end(),
                                     [&](const Marked& m) { return same_piece(*m.piece, piece); });
      if (twin != seen.end()) {
        piece.mark = twin->mark;
      } else {
        const std::string_view letter = mark_letter(piece);
        auto counter = std::find_if(last_number.begin(), last_number.end(),
                                    [&](const auto& c) { return c.first == letter; });
        if (counter == last_number.end()) {
          last_number.emplace_back(letter, 0);
          counter = last_number.end() - 1;
        }
        counter->second += 1;
        piece.mark = std::string(letter) + std::to_string(counter->second);
        seen.push_back({&piece, piece.mark});
      }
    }
    for (std::size_t i = 0; i < plan.order_of_work.size(); ++i) {
      if (plan.piece_of_step[i] >= 0) {
        plan.order_of_work[i].mark = plan.pieces[static_cast<std::size_t>(plan.piece_of_step[i])].mark;
      }
    }
  }
}

}  // namespace lapwright::pieces
