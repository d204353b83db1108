// A small compressor of our own, so that a PDF has the same bytes in every build.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::draw {

// zlib format (RFC 1950) around one deflate block with Huffman codes of its own (RFC 1951).
std::string zlib_compressed(std::string_view data);

}  // namespace lapwright::draw
