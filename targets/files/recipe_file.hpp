#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/files/packed_in.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// A recipe the maker already has.
struct RecipeFile {
  std::string file;
  std::string folder;
  std::string name;  ///< may be empty
  Blend blend;
  LyeWish lye;  ///< superfat, concentration and the like, wherever they were written
  std::optional<MakeSize> make;  ///< "oils: 2600 g" too; absent for a blend by weight or of no size
  Scale scale;
  std::optional<FileName> shelf;  ///< lots and prices
  std::optional<PackedIn> packed_in;
  std::string note;
};

/// Returns a recipe read from a file. Errors: InputError at file, line and column.
RecipeFile read_recipe(const std::string& path, const oils::Library& library);
RecipeFile read_recipe_text(const std::string& text, const std::string& name,
                            const std::string& folder, const oils::Library& library);
/// Returns a recipe written inside another file.
RecipeFile read_recipe_node(const oils::yaml::Node& node, const Reading& reading);

}  // namespace barwright::targets
