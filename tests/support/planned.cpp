#include "planned.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <variant>

namespace lapwright::sample {

std::string file_bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::string> job_files(const std::vector<std::string>& folders) {
  std::vector<std::string> out;
  for (const std::string& folder : folders) {
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
      if (entry.path().extension() == ".json") out.push_back(entry.path().string());
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

const job::Finding* finding(const job::Plan& plan, std::string_view rule) {
  for (const job::Finding& f : plan.findings) {
    if (f.rule == rule) return &f;
  }
  return nullptr;
}

const job::Figure* figure(const std::vector<job::Figure>& figures, std::string_view name) {
  for (const job::Figure& f : figures) {
    if (f.name == name) return &f;
  }
  return nullptr;
}

std::vector<const job::Piece*> pieces_of(const job::Plan& plan, std::string_view kind) {
  std::vector<const job::Piece*> out;
  for (const job::Piece& piece : plan.pieces) {
    if (piece.kind == kind) out.push_back(&piece);
  }
  return out;
}

double figure_value(const std::vector<job::Figure>& figures, std::string_view name) {
  const job::Figure* f = figure(figures, name);
  return f == nullptr ? std::numeric_limits<double>::quiet_NaN() : f->value;
}

double param(const job::Finding* finding, std::string_view name) {
  if (finding != nullptr) {
    for (const job::Param& p : finding->params) {
      if (p.name == name && std::holds_alternative<double>(p.value)) return std::get<double>(p.value);
    }
  }
  return std::numeric_limits<double>::quiet_NaN();
}

std::string word(const job::Finding* finding, std::string_view name) {
  if (finding != nullptr) {
    for (const job::Param& p : finding->params) {
      if (p.name == name && std::holds_alternative<std::string>(p.value))
        return std::get<std::string>(p.value);
    }
  }
  return {};
}

}  // namespace lapwright::sample
