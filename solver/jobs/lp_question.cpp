#include "solver/jobs/lp_question.hpp"

namespace barwright::jobs {

optimise::LpText lp_of(const BlendJob& job, const BlendResult& result) {
  formulate::Assumed own = result.assumed;
  own.held_back.clear();
  const formulate::Formulation question = formulation_of(job, own);
  optimise::LpWords words;
  for (const auto& candidate : job.candidates.oils) words.oils.push_back(candidate.oil.name);
  for (const auto& asked : question.asked) words.wishes.push_back(asked.words);
  if (!question.goals.empty()) words.goal = question.goals.front().words;
  words.fewest_oils = question.fewest_oils_at == 0;
  words.found = result.answer.steps;
  return optimise::lp_text(question.problem, words);
}

}  // namespace barwright::jobs
