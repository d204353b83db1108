#include <lapwright/engine/engine.h>

#include "cutting_run.h"
#include "examining.h"
#include "outcome.h"
#include "planning.h"

#include <optional>
#include <utility>

namespace lapwright::engine {

struct Run::State {
  Request request;
  std::optional<Planned> planned;
  std::optional<YardUsed> yard;
  std::optional<cutting::CutPlan> cut;
  Faults faults;
};

Run::Run(const Request& request) : state_(std::make_unique<State>()) {
  State& state = *state_;
  state.request = request;
  auto yard = yard_of(request.yard);
  if (!yard) state.faults = std::move(yard.error());
  auto planned = plan_job(request.job, request.yard);
  if (!planned) {
    for (Fault& fault : planned.error()) state.faults.push_back(std::move(fault));
  }
  for (Fault& fault : faults_of_papers(request)) state.faults.push_back(std::move(fault));
  if (!state.faults.empty()) return;
  state.faults = cutting::faults_of(yard->yard, planned->pack);
  if (!state.faults.empty()) return;
  state.yard = std::move(*yard);
  state.planned = std::move(*planned);
  examine(*state.planned, {.draw = request.documents, .odds = request.odds});
  state.cut.emplace(state.planned->plan, state.yard->yard, state.planned->pack, request.effort);
}

Run::~Run() = default;
Run::Run(Run&&) noexcept = default;
Run& Run::operator=(Run&&) noexcept = default;

bool Run::step() {
  return state_->cut && state_->cut->step();
}

bool Run::has_plan() const {
  return !state_->cut || state_->cut->has_plan();
}

double Run::progress() const {
  return state_->cut ? state_->cut->progress() : 1;
}

Outcome Run::finish() {
  State& state = *state_;
  if (!state.faults.empty()) return unreadable(state.faults);
  while (!state.cut->has_plan() && state.cut->step()) {
  }
  const auto taken = take_in(*state.cut, *state.yard, *state.planned);
  if (!taken) return unreadable(taken.error());
  const auto settled = settle_estimate(*state.planned, state.yard->invented ? nullptr : &state.yard->yard);
  if (!settled) return unreadable(settled.error());
  if (!state.planned->plan.price && asks_for_quote(state.request)) {
    return unreadable({Fault{FaultCode::contradiction,
                             "only",
                             {},
                             "\"quote\" or \"price\" without prices",
                             "a priced plan",
                             "give a yard file that holds prices, labour or terms (--yard)"}});
  }
  Outcome out = outcome_of(*state.planned, state.request);
  const std::optional<job::Cutting>& cutting = state.planned->plan.cutting;
  out.yard = job::write_yard(cutting ? cutting::yard_after(state.yard->yard, *cutting) : state.yard->yard);
  if (!job::read_yard(out.yard))
    out.yard.clear();  // more in the rack than a file may list: nobody shall write it
  return out;
}

Outcome plan(const Request& request) {
  Run run(request);
  while (run.step()) {
  }
  return run.finish();
}

}  // namespace lapwright::engine
