// A small compressor of our own, so that a PDF has the same bytes in every build.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::draw {

// zlib format (RFC 1950) around one deflate block with Huffman codes of its own (RFC 1951).
std::string zlib_compressed(std::string_view data);

// Huffman code lengths of at most `limit` bits; 0 for symbols that do not occur. A lone symbol gets one bit.
std::vector<std::uint8_t> code_lengths(std::vector<std::uint32_t> counts, unsigned limit);

}  // namespace lapwright::draw
