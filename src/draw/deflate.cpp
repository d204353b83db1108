// Follows RFC 1950 and RFC 1951: LZ77 with hash chains, then dynamic Huffman codes. Integer arithmetic and
// total orders only.
#include "deflate.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

namespace lapwright::draw {
namespace {

constexpr std::size_t kWindow = 32768;
constexpr std::size_t kLeastMatch = 3;
constexpr std::size_t kMostMatch = 258;
constexpr int kTries = 64;  // how far back a chain is followed

// Base value and count of extra bits per code, RFC 1951 3.2.5.
struct Step {
  std::uint16_t base;
  std::uint8_t extra;
};
constexpr std::array<Step, 29> kLengths{
    {{3, 0},  {4, 0},  {5, 0},  {6, 0},   {7, 0},   {8, 0},   {9, 0},   {10, 0},  {11, 1}, {13, 1},
     {15, 1}, {17, 1}, {19, 2}, {23, 2},  {27, 2},  {31, 2},  {35, 3},  {43, 3},  {51, 3}, {59, 3},
     {67, 4}, {83, 4}, {99, 4}, {115, 4}, {131, 5}, {163, 5}, {195, 5}, {227, 5}, {258, 0}}};
constexpr std::array<Step, 30> kDistances{
    {{1, 0},     {2, 0},     {3, 0},     {4, 0},      {5, 1},      {7, 1},     {9, 2},     {13, 2},
     {17, 3},    {25, 3},    {33, 4},    {49, 4},     {65, 5},     {97, 5},    {129, 6},   {193, 6},
     {257, 7},   {385, 7},   {513, 8},   {769, 8},    {1025, 9},   {1537, 9},  {2049, 10}, {3073, 10},
     {4097, 11}, {6145, 11}, {8193, 12}, {12289, 12}, {16385, 13}, {24577, 13}}};

template <std::size_t N>
std::size_t step_of(const std::array<Step, N>& steps, std::size_t value) {
  std::size_t i = N - 1;
  while (steps[i].base > value) --i;
  return i;
}

struct Token {
  std::uint16_t length = 0;  // 0: a literal
  std::uint16_t distance = 0;
  std::uint8_t literal = 0;
};

std::vector<Token> tokens_of(std::string_view data) {
  constexpr std::size_t kHashes = 1U << 15U;
  constexpr std::int64_t kNone = -1;
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(data[i]); };
  std::vector<std::int64_t> newest(kHashes, kNone);
  std::vector<std::int64_t> older(data.size(), kNone);
  const auto remember = [&](std::size_t i) {
    if (i + kLeastMatch > data.size()) return;
    const std::uint32_t key = (byte(i) * 506832829U + byte(i + 1) * 2654435761U + byte(i + 2) * 97531U) >> 7U;
    std::int64_t& head = newest[key % kHashes];
    older[i] = head;
    head = static_cast<std::int64_t>(i);
  };
  // The longest match for the bytes at i among those remembered under the same hash.
  const auto longest = [&](std::size_t i) {
    std::pair<std::size_t, std::size_t> best{0, 0};
    const std::size_t most = std::min(kMostMatch, data.size() - i);
    std::int64_t at = older[i];
    for (int tries = 0; tries < kTries && at != kNone; ++tries) {
      const auto from = static_cast<std::size_t>(at);
      if (i - from > kWindow) break;
      std::size_t length = 0;
      while (length < most && data[from + length] == data[i + length]) ++length;
      if (length > best.first) best = {length, i - from};
      if (length == most) break;
      at = older[from];
    }
    return best;
  };

  std::vector<Token> tokens;
  std::size_t i = 0;
  while (i < data.size()) {
    remember(i);
    const auto [length, distance] = longest(i);
    if (length >= kLeastMatch) {
      tokens.push_back({static_cast<std::uint16_t>(length), static_cast<std::uint16_t>(distance), 0});
      for (std::size_t k = 1; k < length; ++k) remember(i + k);
      i += length;
    } else {
      tokens.push_back({0, 0, byte(i)});
      ++i;
    }
  }
  return tokens;
}

// Canonical codes, RFC 1951 3.2.2, bits reversed because Huffman codes go out from their first bit.
std::vector<std::uint16_t> codes_of(const std::vector<std::uint8_t>& lengths) {
  std::array<std::uint32_t, 17> next{};
  std::array<std::uint32_t, 17> count{};
  for (const std::uint8_t length : lengths) ++count[length];
  count[0] = 0;
  std::uint32_t code = 0;
  for (std::size_t bits = 1; bits < next.size(); ++bits) {
    code = (code + count[bits - 1]) << 1U;
    next[bits] = code;
  }
  std::vector<std::uint16_t> codes(lengths.size(), 0);
  for (std::size_t s = 0; s < lengths.size(); ++s) {
    if (lengths[s] == 0) continue;
    const std::uint32_t straight = next[lengths[s]]++;
    std::uint32_t reversed = 0;
    for (unsigned bit = 0; bit < lengths[s]; ++bit)
      reversed |= ((straight >> bit) & 1U) << (lengths[s] - 1U - bit);
    codes[s] = static_cast<std::uint16_t>(reversed);
  }
  return codes;
}

class BitWriter {
 public:
  explicit BitWriter(std::string& out) : out_(out) {}
  void put(std::uint32_t value, unsigned bits) {
    hold_ |= static_cast<std::uint64_t>(value) << held_;
    held_ += bits;
    while (held_ >= 8) {
      out_.push_back(static_cast<char>(static_cast<std::uint8_t>(hold_)));
      hold_ >>= 8U;
      held_ -= 8;
    }
  }
  void flush() {
    if (held_ > 0) put(0, 8 - held_);
  }

 private:
  std::string& out_;
  std::uint64_t hold_ = 0;
  unsigned held_ = 0;
};

std::uint32_t adler32(std::string_view data) {
  std::uint32_t a = 1;
  std::uint32_t b = 0;
  for (const char c : data) {
    a = (a + static_cast<std::uint8_t>(c)) % 65521U;
    b = (b + a) % 65521U;
  }
  return (b << 16U) | a;
}

}  // namespace

// Should a code come out too long, the counts are flattened and it is built again.
std::vector<std::uint8_t> code_lengths(std::vector<std::uint32_t> counts, unsigned limit) {
  struct Node {
    std::uint64_t count;
    std::int32_t left;
    std::int32_t right;
  };
  const std::size_t symbols = counts.size();
  while (true) {
    std::vector<Node> nodes;
    std::vector<std::size_t> symbol_of;
    std::vector<std::pair<std::uint64_t, std::int32_t>> heap;  // a total order: (count, node)
    for (std::size_t s = 0; s < symbols; ++s) {
      if (counts[s] == 0) continue;
      heap.emplace_back(counts[s], static_cast<std::int32_t>(nodes.size()));
      nodes.push_back({counts[s], -1, -1});
      symbol_of.push_back(s);
    }
    std::vector<std::uint8_t> lengths(symbols, 0);
    if (nodes.empty()) return lengths;
    if (nodes.size() == 1) {
      lengths[symbol_of[0]] = 1;
      return lengths;
    }
    const auto later = [](const auto& a, const auto& b) { return a > b; };
    std::make_heap(heap.begin(), heap.end(), later);
    const auto take = [&] {
      std::pop_heap(heap.begin(), heap.end(), later);
      const auto least = heap.back();
      heap.pop_back();
      return least;
    };
    while (heap.size() > 1) {
      const auto a = take();
      const auto b = take();
      const auto made = static_cast<std::int32_t>(nodes.size());
      nodes.push_back({a.first + b.first, a.second, b.second});
      heap.emplace_back(a.first + b.first, made);
      std::push_heap(heap.begin(), heap.end(), later);
    }
    // Parents come after their children, so one pass from the root down gives the depths.
    std::vector<unsigned> depth(nodes.size(), 0);
    bool fits = true;
    for (std::size_t n = nodes.size(); n-- > 0;) {
      if (nodes[n].left < 0) {
        fits = fits && depth[n] <= limit;
        lengths[symbol_of[n]] = static_cast<std::uint8_t>(depth[n]);
        continue;
      }
      depth[static_cast<std::size_t>(nodes[n].left)] = depth[n] + 1;
      depth[static_cast<std::size_t>(nodes[n].right)] = depth[n] + 1;
    }
    if (fits) return lengths;
    for (std::uint32_t& count : counts) count = count == 0 ? 0 : count / 2 + 1;
  }
}

std::string zlib_compressed(std::string_view data) {
  const std::vector<Token> tokens = tokens_of(data);
  std::vector<std::uint32_t> literal_counts(286, 0);
  std::vector<std::uint32_t> distance_counts(30, 0);
  literal_counts[256] = 1;  // the end
  for (const Token& t : tokens) {
    if (t.length == 0) {
      ++literal_counts[t.literal];
    } else {
      ++literal_counts[257 + step_of(kLengths, t.length)];
      ++distance_counts[step_of(kDistances, t.distance)];
    }
  }
  const std::vector<std::uint8_t> literal_lengths = code_lengths(literal_counts, 15);
  std::vector<std::uint8_t> distance_lengths = code_lengths(distance_counts, 15);
  const bool no_distance =
      std::all_of(distance_lengths.begin(), distance_lengths.end(), [](std::uint8_t l) { return l == 0; });
  if (no_distance) distance_lengths[0] = 1;  // some readers want one
  std::vector<std::uint8_t> both = literal_lengths;
  both.insert(both.end(), distance_lengths.begin(), distance_lengths.end());
  std::vector<std::uint32_t> length_counts(19, 0);
  for (const std::uint8_t length : both) ++length_counts[length];
  const std::vector<std::uint8_t> header_lengths = code_lengths(length_counts, 7);

  std::string out("\x78\x9c", 2);
  BitWriter bits(out);
  bits.put(1, 1);  // the last block
  bits.put(2, 2);  // with codes of its own
  bits.put(286 - 257, 5);
  bits.put(30 - 1, 5);
  bits.put(19 - 4, 4);
  constexpr std::array<std::uint8_t, 19> kOrder{16, 17, 18, 0, 8,  7, 9,  6, 10, 5,
                                                11, 4,  12, 3, 13, 2, 14, 1, 15};
  for (const std::uint8_t symbol : kOrder) bits.put(header_lengths[symbol], 3);
  const std::vector<std::uint16_t> header_codes = codes_of(header_lengths);
  for (const std::uint8_t length : both) bits.put(header_codes[length], header_lengths[length]);

  const std::vector<std::uint16_t> literal_codes = codes_of(literal_lengths);
  const std::vector<std::uint16_t> distance_codes = codes_of(distance_lengths);
  const auto put_literal = [&](std::size_t symbol) {
    bits.put(literal_codes[symbol], literal_lengths[symbol]);
  };
  for (const Token& t : tokens) {
    if (t.length == 0) {
      put_literal(t.literal);
      continue;
    }
    const std::size_t length = step_of(kLengths, t.length);
    put_literal(257 + length);
    bits.put(static_cast<std::uint32_t>(t.length - kLengths[length].base), kLengths[length].extra);
    const std::size_t distance = step_of(kDistances, t.distance);
    bits.put(distance_codes[distance], distance_lengths[distance]);
    bits.put(static_cast<std::uint32_t>(t.distance - kDistances[distance].base), kDistances[distance].extra);
  }
  put_literal(256);
  bits.flush();
  const std::uint32_t sum = adler32(data);
  for (unsigned shift = 32; shift > 0;) {
    shift -= 8;
    out.push_back(static_cast<char>(static_cast<std::uint8_t>(sum >> shift)));
  }
  return out;
}

}  // namespace lapwright::draw
