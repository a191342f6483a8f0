#include "cases.hpp"

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "solver/jobs/blend_job_reader.hpp"

namespace barwright::tests {

const std::vector<Case>& cases() {
  const std::string plain = "compared-with: plain bar\n";
  const std::string olive = "compared-with: all-olive\n";
  const std::string own = "compared-with: {blend: {olive: 60 %, coconut: 30 %, castor: 10 %}}\n";
  static const std::vector<Case> all = {
      {"well-stocked", plain + "want: {hardness: clearly more}\nbest: cheapest\n"},
      {"well-stocked", "best: most mildness\n"},
      {"well-stocked", "best: most lather\n"},
      {"well-stocked", "best: cheapest\n"},
      {"well-stocked", olive + "want: {hardness: clearly more}\nbest: most mildness\n"},
      {"well-stocked",
       own + "want: {hardness: at least 4 above, lather: not clearly less}\nbest: cheapest\n"},
      {"well-stocked", "compared-with: plain bar without palm\nbest: most hardness\n"},
      {"well-stocked", "not: [palm]\nbest: cheapest\n"},
      {"well-stocked", plain + "want: {keeping: clearly more}\nbest: cheapest\n"},
      {"well-stocked", "best: most conditioning\n"},
      {"vegan", "best: most hardness\n"},
      {"vegan", "best: cheapest\n"},
      {"vegan", "best: most lather\n"},
      {"vegan",
       "compared-with: plain bar without palm\nwant: {conditioning: clearly more}\nbest: "
       "cheapest\n"},
      {"vegan", olive + "best: most lather\n"},
      {"vegan", own + "want: {thrift: clearly more}\nbest: cheapest\n"},
      {"vegan", own + "want: {hardness: clearly more}\nbest: most staying\n"},
      {"farm", "best: cheapest\n"},
      {"farm", "best: most hardness\n"},
      {"farm", "best: most lather\n"},
      {"farm", "best: most mildness\n"},
      {"farm", "compared-with: all-lard\nwant: {lather: clearly more}\nbest: cheapest\n"},
      {"farm", "compared-with: all-tallow\nwant: {quickness: clearly more}\nbest: cheapest\n"},
      {"farm", "tag rules: {animal: at most 30 %}\nbest: most lather\n"},
      {"supermarket", "best: cheapest\n"},
      {"supermarket", "best: most hardness\n"},
      {"supermarket", "best: most mildness\n"},
      {"supermarket", olive + "want: {lather: clearly more}\nbest: cheapest\n"},
      {"supermarket", "compared-with: {blend: {olive: 70 %, coconut: 30 %}}\nbest: most keeping\n"},
      {"supermarket", "best: most lather\n"},
      {"supermarket", "best: most keeping\n"},
      {"three", "best: most hardness\n"},
      {"three", "best: cheapest\n"},
      {"three", "best: most lather\n"},
      {"three", olive + "want: {lather: clearly more}\nbest: cheapest\n"},
      {"library", "best: most mildness\n"},
      {"library", "best: most hardness\n"},
      {"library", plain + "want: {hardness: clearly more}\nbest: most conditioning\n"},
      {"library",
       "compared-with: plain bar without palm\nwant: {lather: no less}\nbest: most mildness\n"},
      {"library", olive + "best: most lather\n"},
  };
  return all;
}

jobs::BlendJob job_of(const Case& plain, const std::string& more) {
  static const oils::Library library = oils::Library::embedded();
  const auto folder =
      std::filesystem::temp_directory_path() / ("barwright-manners-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  const auto path = folder / "brief.yaml";
  std::string text = "brief: as plainly as can be\nscale: {oils: 1 g, lye: 0.1 g}\n";
  if (plain.shelf == "library") {
    text += "oils-from: library\n";
  } else {
    text += "oils-from: shelf\nshelf: " BARWRIGHT_SOURCE_DIR "/tests/manners/shelves/" +
            plain.shelf + ".yaml\n";
  }
  std::ofstream(path) << text << plain.lines << more;
  jobs::BlendJob job = jobs::read_blend_job(path.string(), library);
  std::filesystem::remove_all(folder);
  return job;
}

namespace {

double acids(const targets::Composition& fat, std::initializer_list<const char*> keys) {
  double sum = 0;
  for (const char* key : keys) sum += 100 * core::at(fat.acids, *core::find_acid(key));
  return sum;
}

bool of(const oils::Oil& oil, const char* tag) {
  return oil.has_tag(tag) || oil.has_tag(std::string("may be ") + tag);
}

bool has(const formulate::KnownBar& bar, const char* tag) {
  for (const auto& part : bar.parts)
    if (of(part.oil, tag)) return true;
  return false;
}

double share_of(const formulate::KnownBar& bar, const std::string& oil) {
  for (const auto& part : bar.parts)
    if (part.oil.name == oil) return 100 * part.share;
  return 0;
}

}  // namespace

std::vector<std::string> oddities(const jobs::BlendJob& job, const jobs::BlendResult& found) {
  std::vector<std::string> odd;
  if (!found.has_blend()) return {"no blend"};
  if (found.answer.status != optimise::Status::optimal) odd.push_back("not proved");
  const formulate::KnownBar none;
  const formulate::KnownBar& now = job.yardstick ? *job.yardstick : none;
  if (found.used.size() > 6) odd.push_back("more than six oils");
  for (const std::size_t i : found.used) {
    const auto& oil = job.candidates.oils[i].oil;
    const double share = 100.0 * found.answer.steps[i] / found.formulation.problem.steps;
    const bool helper = oil.name == "castor" || of(oil, "wax");
    if (share < (helper ? 1 : 5) &&
        share < share_of(now, oil.name) + (share_of(now, oil.name) == 0 ? 5 : 0))
      odd.push_back("a dab of " + oil.name);
    if (share > 70 && share > share_of(now, oil.name)) odd.push_back("hardly but " + oil.name);
    if (oil.name == "castor" && share > 12) odd.push_back("sticky with castor");
    for (const char* tag : {"animal", "palm", "soya", "tree nut", "peanut"})
      if (job.yardstick && of(oil, tag) && !has(now, tag))
        odd.push_back(std::string(tag) + " is new: " + oil.name);
  }
  const auto& fat = found.composition;
  const auto above = [&](const char* what, double value, double most, double there) {
    if (value > std::max(most, there) + 0.5) odd.push_back(what);
  };
  const auto& bar = now.composition;
  const auto poly = [](const targets::Composition& c) {
    return acids(c, {"C18:2", "C18:3a", "C18:3g", "C18:4", "C20:2", "C20:3"});
  };
  const auto fast = [](const targets::Composition& c) {
    return acids(c, {"C8:0", "C10:0", "C12:0", "C14:0"});
  };
  const auto stiff = [](const targets::Composition& c) {
    return acids(c, {"C18:0", "C20:0", "C22:0"});
  };
  above("drying: short chains", fast(fat), 28, fast(bar));
  above("turns rancid: linoleic and the like", poly(fat), 18, poly(bar));
  above("brittle: stearic", stiff(fat), 22, stiff(bar));
  // A bar that hardly foams, or that is soap of hard fats alone, is no bar for a basin.
  if (!job.yardstick && fast(fat) < 7) odd.push_back("hardly any foam");
  const auto score = [&](targets::Property property) {
    return job.model.value(property, found.composition, found.settings);
  };
  const double cut = targets::hours_to_cut(score(targets::Property::cut_firmness));
  if (cut > 60 && !job.yardstick) odd.push_back("cannot be cut in reasonable time");
  const double keeps = score(targets::Property::keeping);
  if (!job.yardstick && keeps < 45) odd.push_back("does not keep");
  return odd;
}

}  // namespace barwright::tests
