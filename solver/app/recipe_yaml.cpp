#include "solver/app/recipe_yaml.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "solver/app/program.hpp"
#include "solver/recipe_request.hpp"

namespace barwright::app {
namespace {

// In double quotes, so that a name may hold a colon or a sharp.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

}  // namespace

std::string recipe_yaml(const solver::BlendJob& job, const solver::BlendResult& result) {
  const auto& recipe = result.recipe;
  std::string out = fmt::format("# Found by barwright for the brief {}.\nname: {}\nblend:\n",
                                job.brief.file, quoted(job.brief.name));
  for (const std::size_t i : result.used) {
    out += fmt::format("  {}: {:.6g} %\n", job.candidates.oils[i].oil.name,
                       100.0 * result.answer.steps[i] / result.formulation.problem.steps);
  }
  const core::Scales scales = solver::scales(job.brief.scale);
  out +=
      fmt::format("superfat: {:.6g} %\nconcentration: {:.6g} %\noils: {:.6g} g\n",
                  100 * recipe.asked_superfat, 100 * recipe.lye_concentration, recipe.oils_grams);
  out +=
      fmt::format("scale: {{oils: {:.6g} g, lye: {:.6g} g}}\n", scales.oils.step, scales.lye.step);
  return out;
}

void write_new_file(const std::string& path, const std::string& text) {
  if (std::filesystem::exists(path)) {
    throw UsageError{
        fmt::format("'{}' is there already and is left alone. Choose another name.", path)};
  }
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw UsageError{fmt::format("'{}' cannot be written.", path)};
}

}  // namespace barwright::app
