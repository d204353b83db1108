// Writes the sample in every format into the directory given, for readers of other makes to read back.
#include "../sample.h"

#include <lapwright/draw/dxf.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/draw/svg.h>

#include <fstream>
#include <string>

int main(int argc, char** argv) {
  using namespace lapwright::draw;
  if (argc != 2) return 2;
  const std::string directory = argv[1];
  const auto save = [&](const std::string& name, const std::string& bytes) {
    std::ofstream(directory + '/' + name, std::ios::binary) << bytes;
  };
  const Document document = sample::document();
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    save("page-" + std::to_string(i + 1) + ".svg", write_svg(document.pages[i]));
  }
  save("sample.pdf", write_pdf(document));
  save("plain.pdf", write_pdf(document, {"20300131120000Z", false}));
  save("page-1.dxf", write_dxf(document.pages[0].drawing, document.title));
  save("page-2.dxf", write_dxf(document.pages[1].drawing));
  save("net.dxf", write_dxf(sample::net(), "Net"));
  save("net.svg", write_svg(sample::net(), "Net", 5));
  return 0;
}
