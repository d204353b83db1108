// What tests ask of a plan: its pieces by kind, a figure by name, a finding by rule.
#pragma once

#include <lapwright/job/plan.h>

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::sample {

std::string file_bytes(const std::string& path);
// Every job file of the folders (below the source root), sorted.
std::vector<std::string> job_files(const std::vector<std::string>& folders);

// Null when there is none; the first of several.
const job::Finding* finding(const job::Plan& plan, std::string_view rule);
const job::Figure* figure(const std::vector<job::Figure>& figures, std::string_view name);
std::vector<const job::Piece*> pieces_of(const job::Plan& plan, std::string_view kind);

// NaN when there is none, so that no comparison holds.
double figure_value(const std::vector<job::Figure>& figures, std::string_view name);
double param(const job::Finding* finding, std::string_view name);
std::string word(const job::Finding* finding, std::string_view name);

}  // namespace lapwright::sample
