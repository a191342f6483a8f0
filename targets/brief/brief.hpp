#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/brief/brief_yardstick.hpp"
#include "targets/brief/wish.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/oil_rules.hpp"

namespace barwright::targets {

/// What a maker asks for.
struct Brief {
  std::string file;
  std::string folder;  ///< files the brief names are found from here
  std::string name;
  OilsFrom oils_from;
  std::optional<FileName> shelf;
  std::optional<Yardstick> compared_with;
  std::vector<Wish> wishes;  ///< from `want`, and cost ceilings from `limits`
  std::vector<Goal> goals;   ///< `best`, then `then`; empty: any blend that fits
  OilRules rules;
  std::optional<MakeSize> make;
  LyeWish lye;
  Scale scale;
  SureLevel sureness;
};

/// Returns a brief read from a file; every oil in it stands in `library`.
/// Errors: InputError at file, line and column; nothing is guessed.
Brief read_brief(const std::string& path, const oils::Library& library);
/// The same from text; `name` stands for the file, `folder` for where it lies.
Brief read_brief_text(const std::string& text, const std::string& name, const std::string& folder,
                      const oils::Library& library);

/// Returns whether a wish, or a goal to be made the most or the least of, is about such a thing.
bool asks_for_any(const Brief& brief, const std::function<bool(const Subject&)>& such);

}  // namespace barwright::targets
