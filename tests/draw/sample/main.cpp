// Writes the sample in every format into the directory given, for readers of other makes to read back. With
// `widths` as second argument it prints the width of each text of the sample instead.
#include "../sample.h"
#include "deflate.h"

#include <lapwright/draw/dxf.h>
#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/draw/svg.h>

#include <cstdint>
#include <cstdio>
#include <fstream>
#include <string>

namespace {
using namespace lapwright::draw;

void save(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

// "code weight width" of every character of the basic plane that the face holds, by our own reading; the
// width in em.
void save_widths(const std::string& path) {
  std::string rows;
  for (unsigned code = 0x20; code < 0xD800; ++code) {
    std::string text(3, '\0');
    text[0] = static_cast<char>(static_cast<std::uint8_t>(0xE0U | (code >> 12U)));
    text[1] = static_cast<char>(static_cast<std::uint8_t>(0x80U | ((code >> 6U) & 0x3FU)));
    text[2] = static_cast<char>(static_cast<std::uint8_t>(0x80U | (code & 0x3FU)));
    if (code < 0x80) text = std::string(1, static_cast<char>(code));
    if (code >= 0x80 && code < 0x800) {
      text = {static_cast<char>(static_cast<std::uint8_t>(0xC0U | (code >> 6U))), text[2]};
    }
    if (!missing_glyphs(text).empty()) continue;
    rows += std::to_string(code) + " regular " + std::to_string(text_width(text, 1000)) + '\n';
    rows += std::to_string(code) + " bold " + std::to_string(text_width(text, 1000, Weight::bold)) + '\n';
  }
  save(path, rows);
}

// Inputs that take a compressor through its corners.
void save_deflated(const std::string& directory) {
  std::string noise;
  std::uint32_t seed = 2463534242U;
  for (int i = 0; i < 70000; ++i) {
    seed = seed * 1664525U + 1013904223U;
    noise.push_back(static_cast<char>(static_cast<std::uint8_t>(seed >> 24U)));
  }
  std::string skewed;  // counts like Fibonacci numbers make the longest codes
  for (std::size_t symbol = 0, run = 1, next = 1; symbol < 24; ++symbol) {
    for (std::size_t k = 0; k < run; ++k) skewed.push_back(static_cast<char>('A' + symbol));
    const std::size_t sum = run + next;
    run = next;
    next = sum;
  }
  for (std::size_t i = skewed.size(); i > 1; --i) {  // shuffled, or runs would hide the counts
    seed = seed * 1664525U + 1013904223U;
    std::swap(skewed[i - 1], skewed[(seed >> 4U) % i]);
  }
  std::string far = noise.substr(0, 300) + std::string(32500, 'x') + noise.substr(0, 300);
  int number = 0;
  for (const std::string& raw : {std::string{}, std::string("a"), std::string(100000, 'z'), noise, skewed,
                                 far, noise + noise, std::string("abcabcabcabcabcabcd")}) {
    const std::string name = directory + "/deflate-" + std::to_string(number++);
    save(name + ".raw", raw);
    save(name + ".z", zlib_compressed(raw));
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  const std::string directory = std::string(argv[1]) + '/';
  const Document document = sample::document();
  if (argc == 3) {  // page, weight, size, width, text: of the level texts
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
      for (const Plain& plain : expand(document.pages[i].drawing)) {
        const auto* text = std::get_if<PlainText>(&plain);
        if (text == nullptr || text->rotation != 0) continue;
        std::printf("%zu\t%.6f\t%.6f\t%.6f\t%s\n", i + 1, text->at.x, document.pages[i].height - text->at.y,
                    text->width, text->text.c_str());
      }
    }
    return 0;
  }
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const std::string name = directory + "page-" + std::to_string(i + 1);
    save(name + ".svg", write_svg(document.pages[i]));
    save(name + ".dxf", write_dxf(document.pages[i].drawing, document.title));
  }
  save(directory + "sample.pdf", write_pdf(document));
  save(directory + "plain.pdf", write_pdf(document, {.date = "20300131120000Z", .compress = false}));
  save(directory + "net.svg", write_svg(sample::net(), "Net", 5));
  save(directory + "net.dxf", write_dxf(sample::net(), "Net"));
  save(directory + "regular.ttf", std::string(font_file(Weight::regular)));
  save(directory + "bold.ttf", std::string(font_file(Weight::bold)));
  save_widths(directory + "widths.txt");
  save_deflated(argv[1]);
  return 0;
}
