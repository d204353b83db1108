// Reading the corpus, and faults in short.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/read_survey.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace lapwright::job::test {

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

// Every fault as its line; empty when the survey was read.
inline std::vector<std::string> fault_lines(std::string_view job) {
  const Result<Survey> survey = read_survey(job);
  std::vector<std::string> out;
  if (survey) return out;
  for (const Fault& fault : survey.error()) out.push_back(to_line(fault));
  return out;
}

// Equal to the file, or (LAPWRIGHT_BLESS=1) written to it.
inline bool same_as_golden(const std::filesystem::path& path, const std::string& made) {
  if (std::getenv("LAPWRIGHT_BLESS") != nullptr) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << made;
  }
  return bytes_of(path) == made;
}

}  // namespace lapwright::job::test
