// Every file of tests/jobs: the good ones are read, the bad ones give the fault that tests/jobs/bad/index.txt
// names.
#include "support.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace {
using namespace lapwright;
using namespace lapwright::job;
using namespace lapwright::job::test;
namespace fs = std::filesystem;

struct BadJob {
  std::string file, code, schema, path;
};

std::vector<BadJob> bad_jobs() {
  std::vector<BadJob> out;
  std::ifstream index("tests/jobs/bad/index.txt");
  for (std::string line; std::getline(index, line);) {
    if (line.empty() || line.front() == '#') continue;
    BadJob job;
    std::istringstream(line) >> job.file >> job.code >> job.schema >> job.path;
    out.push_back(job);
  }
  return out;
}

TEST(Corpus, good_jobs_are_read) {
  int read = 0;
  for (const auto& entry : fs::directory_iterator("tests/jobs/good")) {
    const auto lines = fault_lines(bytes_of(entry.path()));
    EXPECT_TRUE(lines.empty()) << entry.path() << ": " << lines.front();
    ++read;
  }
  EXPECT_GE(read, 4);
}

TEST(Corpus, bad_jobs_give_the_fault_of_the_index) {
  const auto jobs = bad_jobs();
  EXPECT_GE(jobs.size(), 80U);
  for (const BadJob& job : jobs) {
    const Result<Survey> survey = read_survey(bytes_of("tests/jobs/bad/" + job.file));
    ASSERT_FALSE(survey) << job.file << " was read";
    const Fault& first = survey.error().front();
    EXPECT_EQ(name_of(first.code), job.code) << job.file << ": " << to_line(first);
    EXPECT_EQ(first.path, job.path) << job.file;
    EXPECT_EQ(survey.error().size(), 1U) << job.file << ": " << to_line(survey.error().back());
    EXPECT_GT(first.spot.line, 0U) << job.file;
    EXPECT_FALSE(first.read.empty()) << job.file;
    EXPECT_FALSE(first.accepted.empty()) << job.file;
    EXPECT_FALSE(first.mend.empty()) << job.file;
  }
}

TEST(Corpus, index_names_every_file) {
  std::set<std::string> named;
  for (const BadJob& job : bad_jobs()) named.insert(job.file);
  std::set<std::string> there;
  for (const auto& entry : fs::directory_iterator("tests/jobs/bad")) {
    if (entry.path().extension() == ".json") there.insert(entry.path().filename().string());
  }
  EXPECT_EQ(named, there);
}

// Whatever prefix of a good file is left by a crash or a full disk, there is one clear fault.
TEST(Corpus, every_truncation_is_one_fault) {
  for (const char* name : {"tests/jobs/good/barn.json", "tests/jobs/good/every_key.json"}) {
    std::string whole = bytes_of(name);
    whole.erase(whole.find_last_of('}') + 1);
    for (std::size_t n = 0; n < whole.size(); ++n) {
      const Result<Document> document = read_document(std::string_view(whole).substr(0, n));
      ASSERT_FALSE(document) << name << " up to " << n;
      EXPECT_EQ(document.error().size(), 1U);
      EXPECT_EQ(document.error().front().code, FaultCode::not_json);
    }
  }
}
}  // namespace
