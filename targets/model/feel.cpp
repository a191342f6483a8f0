#include "targets/model/feel.hpp"

#include <algorithm>
#include <cmath>

#include "oils/text/yaml.hpp"
#include "targets/model/constants.hpp"
#include "targets/model/words.hpp"

namespace barwright::targets {
namespace {

using oils::yaml::Node;

constexpr std::array<std::string_view, kFeelPartCount> kPartNames = {"dry bar", "lather",
                                                                     "skin after"};

const FeelData& data() {
  static const FeelData read = read_feel(embedded_document("feel.yaml"));
  return read;
}

void need_judgement(const Node& node) {
  const Node mark = node.need("mark");
  if (mark.text() != "judgement") {
    mark.fail("these figures are judgement", "write mark: judgement, or name a trial");
  }
  node.need("why");
}

FeelPart part_of(const Node& node) {
  const auto found = std::find(kPartNames.begin(), kPartNames.end(), node.text());
  if (found == kPartNames.end()) {
    node.fail("'" + node.text() + "' is no part of the feel", "dry bar, lather or skin after");
  }
  return static_cast<FeelPart>(found - kPartNames.begin());
}

double positive(const Node& node) {
  const double value = node.number();
  if (!(value > 0)) node.fail("a weight is above 0", "leave the term out instead");
  return value;
}

void read_sum(const Node& node, FeelTerm& term) {
  if (const auto acids = node.get("acids")) {
    for (const auto& [key, value] : acids->entries()) {
      const auto acid = core::find_acid(key.text());
      if (!acid) key.fail("'" + key.text() + "' is no acid we know", "write it as C18:0");
      term.per_share[static_cast<std::size_t>(*acid)] = 100 * value.number();
    }
  }
  if (const auto unsaponifiable = node.get("unsaponifiable")) {
    term.per_share[kUnsaponifiable] = 100 * unsaponifiable->number();
  }
  if (const auto superfat = node.get("superfat")) term.superfat = 100 * superfat->number();
}

FeelTerm read_term(const Node& node) {
  node.only({"name", "part", "property", "acids", "unsaponifiable", "superfat", "notice", "weight",
             "aspects", "more", "less", "mark", "why"});
  need_judgement(node);
  FeelTerm term;
  term.name = node.need("name").text();
  term.part = part_of(node.need("part"));
  term.weight = positive(node.need("weight"));
  term.why = node.need("why").text();
  for (const Node& aspect : node.need("aspects").items()) {
    if (aspect.text() != "dry touch" && !find_property(aspect.text())) {
      aspect.fail("'" + aspect.text() + "' is no aspect", "'dry touch' or a property's name");
    }
    term.aspects.push_back(aspect.text());
  }
  if (const auto property = node.get("property")) {
    term.property = find_property(property->text());
    if (!term.property || !PropertyModel::has_form(*term.property) ||
        *term.property == Property::keeping || *term.property == Property::working_time) {
      property->fail("the feel cannot be reckoned on '" + property->text() + "'",
                     "a property with an even scale");
    }
    term.notice = noticeable(*term.property);
    term.more = words(*term.property).more;
    term.less = words(*term.property).less;
    return term;
  }
  read_sum(node, term);
  const Node notice = node.need("notice");
  term.notice = 100 * notice.fraction();
  if (!(term.notice > 0)) notice.fail("a size above 0 is wanted", "such as 4 %");
  term.more = node.need("more").text();
  term.less = node.need("less").text();
  return term;
}

}  // namespace

FeelData read_feel(const std::string& text, const std::string& file) {
  return read_feel(oils::yaml::Document::from_text(text, file));
}

FeelData read_feel(const oils::yaml::Document& document) {
  const Node root = document.root();
  root.only({"parts", "terms", "matters-most"});
  FeelData out;
  for (const Node& part : root.need("parts").items()) {
    part.only({"name", "words"});
    out.parts[static_cast<std::size_t>(part_of(part.need("name")))] = part.need("words").text();
  }
  for (const Node& term : root.need("terms").items()) out.terms.push_back(read_term(term));
  const Node most = root.need("matters-most");
  most.only({"times", "mark", "why"});
  need_judgement(most);
  for (const Node& times : most.need("times").items()) out.times.push_back(positive(times));
  return out;
}

const std::string& words(FeelPart part) { return data().parts[static_cast<std::size_t>(part)]; }

const std::vector<FeelTerm>& feel_terms() { return data().terms; }

std::vector<double> emphasis(std::span<const std::string> matters_most) {
  std::vector<double> out;
  const auto& times = data().times;
  for (const auto& term : feel_terms()) {
    double factor = 1;
    for (std::size_t i = 0; i < matters_most.size(); ++i) {
      const bool meant = std::find(term.aspects.begin(), term.aspects.end(), matters_most[i]) !=
                         term.aspects.end();
      // A term of two aspects counts by the weightier.
      if (meant) factor = std::max(factor, times[std::min(i, times.size() - 1)]);
    }
    out.push_back(factor);
  }
  return out;
}

double FeelForm::at(const Composition& composition) const {
  const auto c = components(composition);
  double value = constant;
  for (std::size_t k = 0; k < c.size(); ++k) value += linear[k] * c[k];
  if (linear.own.empty()) return value;
  for (const Composition::Part& part : composition.parts)
    if (part.oil < linear.own.size()) value += part.share * linear.own[part.oil];
  return value;
}

std::vector<FeelForm> feel_forms(const PropertyModel& model, const BarSettings& settings) {
  std::vector<FeelForm> out;
  for (const auto& term : feel_terms()) {
    FeelForm form;
    if (term.property) {
      const PropertyForm property = model.form(*term.property, settings);
      form.constant = property.constant;
      form.linear = property.linear;  // its bends are terms of their own: see data/feel.yaml
    } else {
      form.constant = term.superfat * settings.superfat;
      form.linear = Weights{term.per_share};
    }
    form.constant /= term.notice;
    for (double& slope : form.linear) slope /= term.notice;
    for (double& slope : form.linear.own) slope /= term.notice;
    out.push_back(form);
  }
  return out;
}

FeelGap feel_gap(const PropertyModel& model, const Composition& bar, const BarSettings& settings,
                 const Composition& yardstick, const BarSettings& yardstick_settings) {
  const auto here = feel_forms(model, settings);
  const auto there = feel_forms(model, yardstick_settings);
  FeelGap out;
  out.parts.fill(0);
  for (std::size_t t = 0; t < here.size(); ++t) {
    const double gap = here[t].at(bar) - there[t].at(yardstick);
    out.terms.push_back(gap);
    const auto& term = feel_terms()[t];
    out.parts[static_cast<std::size_t>(term.part)] += term.weight * gap * gap;
  }
  for (double& part : out.parts) {
    out.total += part;
    part = std::sqrt(part);
  }
  out.total = std::sqrt(out.total);
  return out;
}

}  // namespace barwright::targets
