#include "serve/sha256.h"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace lapwright::serve {

namespace {

// FIPS 180-4, 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64 primes.
constexpr std::array<std::uint32_t, 64> kRound = {
    0x428a2f98U, 0x71374491U, 0xb5c0fbcfU, 0xe9b5dba5U, 0x3956c25bU, 0x59f111f1U, 0x923f82a4U, 0xab1c5ed5U,
    0xd807aa98U, 0x12835b01U, 0x243185beU, 0x550c7dc3U, 0x72be5d74U, 0x80deb1feU, 0x9bdc06a7U, 0xc19bf174U,
    0xe49b69c1U, 0xefbe4786U, 0x0fc19dc6U, 0x240ca1ccU, 0x2de92c6fU, 0x4a7484aaU, 0x5cb0a9dcU, 0x76f988daU,
    0x983e5152U, 0xa831c66dU, 0xb00327c8U, 0xbf597fc7U, 0xc6e00bf3U, 0xd5a79147U, 0x06ca6351U, 0x14292967U,
    0x27b70a85U, 0x2e1b2138U, 0x4d2c6dfcU, 0x53380d13U, 0x650a7354U, 0x766a0abbU, 0x81c2c92eU, 0x92722c85U,
    0xa2bfe8a1U, 0xa81a664bU, 0xc24b8b70U, 0xc76c51a3U, 0xd192e819U, 0xd6990624U, 0xf40e3585U, 0x106aa070U,
    0x19a4c116U, 0x1e376c08U, 0x2748774cU, 0x34b0bcb5U, 0x391c0cb3U, 0x4ed8aa4aU, 0x5b9cca4fU, 0x682e6ff3U,
    0x748f82eeU, 0x78a5636fU, 0x84c87814U, 0x8cc70208U, 0x90befffaU, 0xa4506cebU, 0xbef9a3f7U, 0xc67178f2U};

using State = std::array<std::uint32_t, 8>;

void take_block(State& state, const char* block) {
  std::array<std::uint32_t, 64> w{};
  for (std::size_t i = 0; i < 16; ++i) {
    for (std::size_t k = 0; k < 4; ++k) w[i] = (w[i] << 8U) | static_cast<unsigned char>(block[4 * i + k]);
  }
  for (std::size_t i = 16; i < 64; ++i) {
    const std::uint32_t a = w[i - 15];
    const std::uint32_t b = w[i - 2];
    w[i] = w[i - 16] + w[i - 7] + (std::rotr(a, 7) ^ std::rotr(a, 18) ^ (a >> 3U)) +
           (std::rotr(b, 17) ^ std::rotr(b, 19) ^ (b >> 10U));
  }
  State s = state;
  for (std::size_t i = 0; i < 64; ++i) {
    const std::uint32_t one = s[7] + (std::rotr(s[4], 6) ^ std::rotr(s[4], 11) ^ std::rotr(s[4], 25)) +
                              ((s[4] & s[5]) ^ (~s[4] & s[6])) + kRound[i] + w[i];
    const std::uint32_t two = (std::rotr(s[0], 2) ^ std::rotr(s[0], 13) ^ std::rotr(s[0], 22)) +
                              ((s[0] & s[1]) ^ (s[0] & s[2]) ^ (s[1] & s[2]));
    s = {one + two, s[0], s[1], s[2], s[3] + one, s[4], s[5], s[6]};
  }
  for (std::size_t i = 0; i < 8; ++i) state[i] += s[i];
}

}  // namespace

std::string revision_of(std::string_view bytes) {
  State state = {0x6a09e667U, 0xbb67ae85U, 0x3c6ef372U, 0xa54ff53aU,
                 0x510e527fU, 0x9b05688cU, 0x1f83d9abU, 0x5be0cd19U};
  std::size_t at = 0;
  for (; at + 64 <= bytes.size(); at += 64) take_block(state, bytes.data() + at);
  std::string last(bytes.substr(at));
  last += static_cast<char>(0x80);
  while (last.size() % 64 != 56) last += '\0';
  const std::uint64_t bits = std::uint64_t{bytes.size()} * 8;
  for (unsigned shift = 64; shift > 0; shift -= 8) last += static_cast<char>((bits >> (shift - 8)) & 0xFFU);
  for (std::size_t block = 0; block < last.size(); block += 64) take_block(state, last.data() + block);

  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string out;
  for (std::size_t i = 0; i < 4; ++i) {
    for (unsigned shift = 32; shift > 0; shift -= 4) out += kDigits[(state[i] >> (shift - 4)) & 15U];
  }
  return out;
}

}  // namespace lapwright::serve
