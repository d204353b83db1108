#include "fingerprint.h"

#include <cstdint>

namespace lapwright::engine {

std::string fingerprint(const std::vector<std::string_view>& parts) {
  // FNV-1a, 64 bits: offset basis and prime as published by its authors (Fowler, Noll, Vo).
  std::uint64_t hash = 0xCBF29CE484222325ULL;
  const auto eat = [&](std::uint8_t byte) {
    hash ^= byte;
    hash *= 0x100000001B3ULL;
  };
  for (const std::string_view part : parts) {
    auto size = static_cast<std::uint64_t>(part.size());
    for (int i = 0; i < 8; ++i, size >>= 8U) eat(static_cast<std::uint8_t>(size & 0xFFU));
    for (const char c : part) eat(static_cast<std::uint8_t>(c));
  }
  constexpr std::string_view kLetters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";  // 30
  std::string out;
  for (int i = 0; i < 8; ++i) {
    out += kLetters[static_cast<std::size_t>(hash % kLetters.size())];
    hash /= kLetters.size();
  }
  return out;
}

}  // namespace lapwright::engine
