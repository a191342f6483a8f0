#include "solver/tune/tuned_file.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>

#include "core/units/error.hpp"
#include "core/units/number_text.hpp"
#include "core/units/seeded.hpp"
#include "oils/files/safe_file.hpp"
#include "solver/tune/latent.hpp"

namespace barwright::tune {

using targets::Property;
using targets::PropertyModel;

namespace {

constexpr const char* kHead = "barwright readings 1";

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += "\t" + name;
  return out;
}

std::string numbers(const std::vector<double>& values) {
  std::string out;
  for (const double value : values) out += "\t" + core::number_text(value);
  return out;
}

std::vector<std::string> parts_of(const std::string& line) {
  std::vector<std::string> out;
  std::istringstream in(line);
  for (std::string part; std::getline(in, part, '\t');) out.push_back(part);
  return out;
}

// Reads line by line; every line starts with its word.
class Lines {
 public:
  Lines(const std::string& text, std::string file) : in_(text), file_(std::move(file)) {}

  std::vector<std::string> need(const std::string& word) {
    std::string line;
    ++number_;
    if (!std::getline(in_, line)) fail("the file ends before '" + word + "'");
    std::vector<std::string> parts = parts_of(line);
    if (parts.empty() || parts.front() != word) fail("here '" + word + "' is wanted");
    parts.erase(parts.begin());
    return parts;
  }
  std::string one(const std::string& word) {
    const auto parts = need(word);
    if (parts.size() != 1) fail("'" + word + "' has one value");
    return parts.front();
  }
  std::vector<double> figures(const std::string& word, std::size_t count) {
    std::vector<double> out;
    for (const std::string& part : need(word)) {
      double value = 0;
      const auto end = part.data() + part.size();
      const auto read = core::read_number(part.data(), end, value);
      if (read.ec != std::errc() || read.ptr != end || !std::isfinite(value))
        fail("'" + part + "' is no figure");
      out.push_back(value);
    }
    if (out.size() != count) fail("a reading is cut short");
    return out;
  }
  [[noreturn]] void fail(const std::string& message) const {
    throw core::InputError({file_, number_, 1}, message,
                           "This file is written by 'barwright tune' alone: tune again.");
  }

 private:
  std::istringstream in_;
  std::string file_;
  int number_ = 0;
};

// Of one oil, by one property: steps in every reading, drawn beforehand.
std::vector<double> untried(const std::string& oil, Property property,
                            const std::vector<double>& scales) {
  Dice dice(core::hash_of(oil, core::kHashStart + static_cast<std::size_t>(property)));
  std::vector<double> out;
  for (const double scale : scales) out.push_back(scale * student4(dice.normal()));
  return out;
}

double middle_beforehand(const targets::Constant& constant) {
  constexpr int kParts = 2000;
  double sum = 0;
  for (int i = 0; i < kParts; ++i) sum += constant.at((i + 0.5) / kParts);
  return sum / kParts;
}

targets::ConstantValues centre_of(const Tuned& tuned, const PropertyModel& print) {
  targets::ConstantValues out = print.values();
  const auto count = static_cast<double>(tuned.readings.size());
  for (std::size_t c = 0; c < out.values.size(); ++c) {
    const targets::Constant& constant = print.constants()[c];
    if (constant.spread.kind == targets::Spread::Kind::none || !constant.used) continue;
    double mean = 0;
    for (const TunedReading& reading : tuned.readings) mean += reading.constants[c] / count;
    if (constant.spread.kind == targets::Spread::Kind::choices) {
      // One of a few sets has no middle: print's, unless most readings are of another.
      for (double set = 0; set < constant.spread.size; ++set) {
        double of_it = 0;
        for (const TunedReading& reading : tuned.readings)
          of_it += reading.constants[c] == set ? 1 / count : 0;
        if (of_it > 0.5) out.values[c] = set;
      }
      continue;
    }
    const auto [low, high] = std::minmax(constant.at(0), constant.at(1));
    out.values[c] = std::clamp(constant.value + mean - middle_beforehand(constant), low, high);
  }
  return out;
}

PropertyModel::Tuning tuning_of(const Tuned& tuned) {
  PropertyModel::Tuning out;
  const std::size_t n = tuned.readings.size();
  for (std::size_t p = 0; p < tuned.pours.size(); ++p) {
    // A reading counts by what the rest of the notes says of it: what this pour's say is taken out.
    double least = tuned.readings.front().by_pour[p];
    for (const TunedReading& reading : tuned.readings) least = std::min(least, reading.by_pour[p]);
    std::vector<double> counts;
    double sum = 0;
    for (const TunedReading& reading : tuned.readings) {
      counts.push_back(std::exp(least - reading.by_pour[p]));
      sum += counts.back();
    }
    // None counts for more than root n of the mean (Ionides 2008).
    const double most = std::sqrt(static_cast<double>(n)) * sum / static_cast<double>(n);
    for (double& count : counts) count = std::min(count, most);
    out.without_pour.push_back(std::move(counts));
  }
  return out;
}

}  // namespace

std::string model_mark() {
  std::string all;
  for (const char* file : {"model.yaml", "titres.yaml", "words.yaml"})
    all += targets::embedded_text(file);
  return oils::mark_of(all);
}

std::string oils_mark(const std::vector<const oils::Oil*>& oils) {
  std::string all;
  for (const oils::Oil* oil : oils) {
    all += oil->name;
    for (const double part : targets::components(targets::composition(*oil)))
      all += " " + core::number_text(part);
    all += "\n";
  }
  return oils::mark_of(all);
}

Tuned tuned_of(const NotesModel& model, const Learned& learned, Provenance from) {
  Tuned out;
  out.from = std::move(from);
  out.from.model = model_mark();
  out.from.oils = oils_mark(model.oils());
  out.settled = learned.settled;
  for (const oils::Oil* oil : model.oils()) out.oils.push_back(oil->name);
  out.properties = model.properties();
  std::vector<std::size_t> pours;
  for (std::size_t p = 0; p < model.notes().pours.size(); ++p) {
    const auto& sayings = model.sayings();
    const bool spoken = std::any_of(sayings.begin(), sayings.end(), [&](const Saying& saying) {
      return std::find(saying.pours.begin(), saying.pours.end(), p) != saying.pours.end();
    });
    if (!spoken) continue;
    pours.push_back(p);
    out.pours.push_back(model.notes().pours[p].name);
  }
  for (std::size_t r = 0; r < learned.states.size(); ++r) {
    const auto& z = learned.states[r];
    TunedReading reading;
    reading.constants = model.constants(z).values;
    for (const Property property : out.properties) {
      reading.scales.push_back(model.offset_scale(z, property));
      for (std::size_t o = 0; o < out.oils.size(); ++o)
        reading.offsets.push_back(model.offset(z, o, property));
    }
    for (const std::size_t pour : pours) {
      double sum = 0;
      for (std::size_t s = 0; s < model.sayings().size(); ++s) {
        const auto& of = model.sayings()[s].pours;
        if (std::find(of.begin(), of.end(), pour) != of.end()) sum += learned.by_saying[r][s];
      }
      reading.by_pour.push_back(sum);
    }
    out.readings.push_back(std::move(reading));
  }
  return out;
}

std::string draws_text(const Tuned& tuned) {
  std::vector<std::string> properties;
  for (const Property property : tuned.properties) properties.emplace_back(name(property));
  std::string out = std::string(kHead) + "\n";
  out += "model\t" + tuned.from.model + "\noils\t" + tuned.from.oils + "\nnotes\t" +
         tuned.from.notes + "\nprogram\t" + tuned.from.program + "\nnotes-file\t" +
         tuned.from.notes_file + "\nsettled\t" + (tuned.settled ? "yes" : "no") + "\n";
  out += "of-oils" + joined(tuned.oils) + "\nof-properties" + joined(properties) + "\nof-pours" +
         joined(tuned.pours) + "\ncount\t" + std::to_string(tuned.readings.size()) + "\n";
  for (const TunedReading& reading : tuned.readings)
    out += "constants" + numbers(reading.constants) + "\noffsets" + numbers(reading.offsets) +
           "\nscales" + numbers(reading.scales) + "\nby-pour" + numbers(reading.by_pour) + "\n";
  return out;
}

Tuned read_draws(const std::string& text, const std::string& file) {
  Lines lines(text, file);
  lines.need(kHead);
  Tuned out;
  out.from.model = lines.one("model");
  out.from.oils = lines.one("oils");
  out.from.notes = lines.one("notes");
  out.from.program = lines.one("program");
  out.from.notes_file = lines.one("notes-file");
  out.settled = lines.one("settled") == "yes";
  out.oils = lines.need("of-oils");
  for (const std::string& word : lines.need("of-properties")) {
    const auto property = targets::find_property(word);
    if (!property) lines.fail("'" + word + "' is no property");
    out.properties.push_back(*property);
  }
  out.pours = lines.need("of-pours");
  const std::string count = lines.one("count");
  if (count != std::to_string(PropertyModel::kReadings))
    lines.fail("so many readings are wanted: " + std::to_string(PropertyModel::kReadings));
  for (std::size_t r = 0; r < PropertyModel::kReadings; ++r) {
    TunedReading reading;
    reading.constants = lines.figures("constants", targets::kConstantCount);
    reading.offsets = lines.figures("offsets", out.properties.size() * out.oils.size());
    reading.scales = lines.figures("scales", out.properties.size());
    reading.by_pour = lines.figures("by-pour", out.pours.size());
    out.readings.push_back(std::move(reading));
  }
  return out;
}

PropertyModel tuned_model(const Tuned& tuned, const oils::Library& library,
                          const std::string& program, const std::string& file) {
  const auto unlike = [&](const std::string& what) {
    throw core::InputError({file, 0, 0}, what,
                           "Tune again: barwright tune " + tuned.from.notes_file +
                               ". Or answer from print alone with --untuned.");
  };
  if (tuned.from.model != model_mark()) unlike("these readings are of another model");
  if (tuned.from.program != program) unlike("these readings are of another barwright");
  std::vector<const oils::Oil*> known;
  for (const std::string& name : tuned.oils) {
    known.push_back(library.find(name));
    if (known.back() == nullptr)
      unlike("these readings speak of " + name + ", which is not known here");
  }
  if (tuned.from.oils != oils_mark(known)) unlike("an oil of these readings has other figures now");

  const std::size_t n = tuned.readings.size();
  std::vector<targets::OilOffsets> offsets(n);
  targets::OilOffsets centre;
  for (const oils::Oil& oil : library.oils()) {
    const auto at = std::find(tuned.oils.begin(), tuned.oils.end(), oil.name);
    const auto o = static_cast<std::size_t>(at - tuned.oils.begin());
    targets::OilOffsets::Of of{targets::composition(oil), {}};
    std::vector<targets::OilOffsets::Of> readings(n, of);
    for (const Property property : targets::all_properties()) {
      if (!PropertyModel::has_form(property)) continue;
      const auto row = static_cast<std::size_t>(
          std::find(tuned.properties.begin(), tuned.properties.end(), property) -
          tuned.properties.begin());
      const auto p = static_cast<std::size_t>(property);
      // Of properties that no note speaks of, print is left as it is.
      if (row == tuned.properties.size()) continue;
      std::vector<double> steps, scales;
      for (const TunedReading& reading : tuned.readings) scales.push_back(reading.scales[row]);
      if (at == tuned.oils.end()) steps = untried(oil.name, property, scales);
      for (std::size_t r = 0; r < n; ++r) {
        if (at != tuned.oils.end())
          steps.push_back(tuned.readings[r].offsets[row * tuned.oils.size() + o]);
        readings[r].steps[p] = steps[r];
        if (at != tuned.oils.end()) of.steps[p] += steps[r] / static_cast<double>(n);
      }
    }
    for (std::size_t r = 0; r < n; ++r) offsets[r].oils.push_back(std::move(readings[r]));
    if (at != tuned.oils.end()) centre.oils.push_back(std::move(of));
  }
  const PropertyModel print = PropertyModel::embedded();
  std::vector<PropertyModel> readings;
  for (std::size_t r = 0; r < n; ++r)
    readings.push_back(print.at_values({tuned.readings[r].constants}, std::move(offsets[r])));
  return PropertyModel::tuned(print.at_values(centre_of(tuned, print), std::move(centre)),
                              std::move(readings), tuning_of(tuned));
}

std::string mark(const Tuned& tuned) { return oils::mark_of(draws_text(tuned)); }

}  // namespace barwright::tune
