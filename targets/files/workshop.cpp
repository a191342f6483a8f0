#include "targets/files/workshop.hpp"

#include <algorithm>
#include <filesystem>

#include "oils/text/names.hpp"
#include "oils/text/workshop_place.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"

namespace barwright::targets {

using oils::yaml::Node;

namespace {

/// A workshop's lye is the jar and the habits; what goes in beside them belongs to a recipe.
LyeWish shop_lye(const Node& node) {
  for (const char* key : {"acids", "liquids", "into-lye", "salt", "sodium lactate"}) {
    if (const auto found = node.get(key))
      found->fail(std::string("'") + key + "' belongs to a recipe, not to the workshop",
                  "Write it into the recipes that have it.");
  }
  return read_lye(node);
}

Workshop read_workshop(const Node& root, const std::string& folder) {
  Workshop out;
  out.file = root.place().file;
  Block block(root);
  block.need("workshop", [&](const Node& node) { out.name = plain_text(node); });
  block.read("units", [&](const Node& node) {
    out.units = choice<core::Units>(node, {{"g", core::Units::grams},
                                           {"grams", core::Units::grams},
                                           {"kg", core::Units::grams},
                                           {"oz", core::Units::ounces},
                                           {"ounces", core::Units::ounces},
                                           {"lb", core::Units::ounces}});
  });
  block.read("currency", [&](const Node& node) { out.currency = plain_text(node); });
  block.read("scale", [&](const Node& node) { out.scale = read_scale(node); });
  block.read("lye", [&](const Node& node) { out.lye = shop_lye(node); });
  block.read("room", [&](const Node& node) { out.room_celsius = node.celsius(); });
  block.read("cure",
             [&](const Node& node) { out.cure_hours = above_zero(node.hours(), node, "a cure"); });
  block.read("shelf", [&](const Node& node) { out.shelf = file_name(node, folder); });
  block.read("moulds", [&](const Node& node) {
    core::Faults::each(node.entries(), [&](const auto& entry) {
      const Node& sized = entry.second;
      if (!sized.is_map() || !(sized.has("inside") || sized.has("volume") || sized.has("water")))
        sized.fail(
            "the mould has no size",
            "Write inside: [length, width, height], volume: or water: (the weight it holds).");
      Mould mould = read_moulds(sized, {}).front();
      mould.name = entry.first.text();
      out.moulds.emplace_back(mould.name, std::move(mould));
    });
  });
  block.read("packed-in", [&](const Node& node) { out.packed_in = read_packed_in(node); });
  block.done();
  return out;
}

bool stands_in(const Node& root, std::initializer_list<std::string_view> keys) {
  const auto lye = root.get("lye");
  return std::any_of(keys.begin(), keys.end(), [&](std::string_view key) {
    return root.has(key) || (lye && lye->is_map() && lye->has(key));
  });
}

/// Whether every part of a batch says one of these itself.
bool in_every_part(const Node& root, std::initializer_list<std::string_view> keys) {
  const auto parts = root.get("parts");
  if (!parts || !parts->is_map() || parts->entries().empty()) return false;
  const auto each = parts->entries();
  return std::all_of(each.begin(), each.end(), [&](const auto& part) {
    return part.second.is_map() && stands_in(part.second, keys);
  });
}

}  // namespace

std::optional<Workshop> workshop_in(const std::string& folder) {
  const auto document = oils::workshop_document(folder);
  if (!document) return std::nullopt;
  return read_workshop(document->root(), folder);
}

std::optional<Workshop> workshop_beside(const std::string& file) {
  return workshop_in(std::filesystem::path(file).parent_path().string());
}

void fill_from(const std::optional<Workshop>& workshop, LyeWish& lye) {
  if (!workshop || !workshop->lye) return;
  const LyeWish& shop = *workshop->lye;
  if (!lye.alkali && !lye.naoh_strength && !lye.koh_strength) {
    lye.alkali = shop.alkali;
    lye.naoh_strength = shop.naoh_strength;
    lye.koh_strength = shop.koh_strength;
    lye.koh_share = shop.koh_share;
    lye.koh_basis = shop.koh_basis;
  }
  const auto fill = [](auto& own, const auto& from) {
    if (!own) own = from;
  };
  fill(lye.superfat, shop.superfat);
  fill(lye.never_below, shop.never_below);
  fill(lye.raise, shop.raise);
  if (!lye.concentration && !lye.water_per_alkali && !lye.water_of_oils) {
    lye.concentration = shop.concentration;
    lye.water_per_alkali = shop.water_per_alkali;
    lye.water_of_oils = shop.water_of_oils;
  }
  fill(lye.lye_celsius, shop.lye_celsius);
  fill(lye.oils_celsius, shop.oils_celsius);
}

void fill_from(const std::optional<Workshop>& workshop, Scale& scale) {
  if (!workshop) return;
  if (!scale.oils_grams) scale.oils_grams = workshop->scale.oils_grams;
  if (!scale.lye_grams) scale.lye_grams = workshop->scale.lye_grams;
}

std::string taken_from(const Workshop& workshop, const Node& root) {
  std::string out;
  const auto add = [&](bool taken, const char* words) {
    if (taken) out += (out.empty() ? "" : ", ") + std::string(words);
  };
  if (!root.is_map()) return out;
  const auto scale = root.get("scale");
  const auto scale_has = [&](const char* key) {
    return scale && scale->is_map() && scale->has(key);
  };
  add((workshop.scale.oils_grams && !scale_has("oils")) ||
          (workshop.scale.lye_grams && !scale_has("lye")),
      "scale");
  if (workshop.lye) {
    const LyeWish& lye = *workshop.lye;
    add(lye.alkali && !stands_in(root, {"alkali", "strength", "purity"}),
        lye.naoh_strength || lye.koh_strength ? "alkali and its strength" : "alkali");
    add((lye.superfat || lye.never_below || lye.raise) && !stands_in(root, {"superfat"}) &&
            !in_every_part(root, {"superfat"}),
        "superfat");
    add((lye.concentration || lye.water_per_alkali || lye.water_of_oils) &&
            !stands_in(root, {"concentration", "water-ratio", "water"}) &&
            !in_every_part(root, {"concentration", "water-ratio", "water"}),
        "water of the lye");
    add((lye.lye_celsius || lye.oils_celsius) && !stands_in(root, {"lye-at", "oils-at"}) &&
            !in_every_part(root, {"lye-at", "oils-at"}),
        "temperatures");
  }
  const bool batch = root.has("batch");
  add(batch && workshop.room_celsius && !root.has("room"), "room");
  const auto after = root.get("after");
  add(workshop.cure_hours && (batch || !root.has("brief")) &&
          !(after && after->is_map() && after->has("cure")),
      "cure");
  add(workshop.shelf && !root.has("shelf"), "shelf");
  return out;
}

Mould known_mould(const Node& name, const std::string& folder) {
  const auto workshop = workshop_in(folder);
  std::vector<std::string> known;
  if (workshop) {
    for (const auto& [own, mould] : workshop->moulds) {
      if (oils::folded_name(own) == oils::folded_name(name.text())) return mould;
      known.push_back(own);
    }
  }
  name.fail("no size of the mould '" + name.text() + "' is known",
            known.empty() ? core::Remedy("Write its inside: [length, width, height], or enter it "
                                         "once under 'moulds:' in workshop.yaml beside this file.")
                          : oils::yaml::nearest_and_known(name.text(), known));
}

}  // namespace barwright::targets
