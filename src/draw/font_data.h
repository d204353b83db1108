// The bytes of the embedded face, made at build time by font/embed.py.
#pragma once

#include <span>

namespace lapwright::draw::font_data {
std::span<const unsigned char> regular();
std::span<const unsigned char> bold();
}  // namespace lapwright::draw::font_data
