#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/files/packed_in.hpp"
#include "targets/text/brief_date.hpp"

namespace barwright::targets {

/// How a log is cut into bars, mm.
struct Cut {
  double slice = 0;
  double kerf = 0;
  double end_trim = 0;
};

/// A colour of a part.
struct Colour {
  std::string name;
  double share = 0;            ///< fraction of the part's batter; shares add to 1
  std::vector<Addition> with;  ///< plain grams: in all of this colour
  Written written;
};

/// The oil colours are wetted with.
struct WetColour {
  OilName oil;
  double each_grams = 0;  ///< per colour
  /// Its mass is taken off the blend's; else it comes on top. Either way a fat the lye must count.
  bool from_blend = false;
  bool in_blend = false;  ///< whether the part's blend has this oil
};

struct ScentCertificate {
  FileName file;
  std::string category;               ///< of the bar, as the certificate names it: "9", "5A"
  std::optional<double> most_in_bar;  ///< fraction of the finished bar
};

struct Scent {
  std::string name;
  Dose dose;
  std::vector<std::string> goes_in;  ///< colours; empty: the whole part
  std::optional<ScentCertificate> certificate;
  std::map<std::string, std::string> behaves;  ///< "thickens": "a little", "colours": "cream"
  std::optional<double> flash_celsius;         ///< of its safety data sheet
  std::optional<double> vanillin;              ///< fraction of it, as its maker states
  std::vector<Addition> soaked_in;             ///< clay it is stirred into beforehand; at most one
  Written written;
};

/// Soap set into a part, already made.
struct Embed {
  std::string name;
  double grams = 0;        ///< in all; reckoned from the volume where that was measured
  double volume_ml = 0;    ///< in all: so much less batter fills the mould
  bool by_volume = false;  ///< the volume was measured, not the weight
  std::string lot;         ///< the batch they came from
  Written written;
};

/// Small pours beside the moulds, to test and to keep.
struct Samples {
  int count = 0;
  double each_grams = 0;
};

/// Oils weighed out beforehand as one.
struct Premix {
  std::string name;
  Blend blend;
  Written written;
};

/// How large a topping is.
struct ToppingSize {
  double per_bar_grams = 0;
  double left_in_bag = 0;  ///< fraction of what is made
};

/// A portion of a batch with its own blend.
struct Part {
  enum class Method { poured, creamed_fats, thick_trace };
  std::string name;
  Method method = Method::poured;
  Blend blend;
  LyeWish lye;  ///< superfat, concentration, temperatures, what goes into lye
  std::vector<Colour> colours;
  std::optional<WetColour> wet_colour_with;
  std::vector<Scent> scents;
  std::vector<Addition> additives;  ///< of the whole part: clay, honey, milk at trace, ...
  std::vector<Embed> embeds;
  std::vector<std::string> pour;    ///< free words, step by step
  std::optional<ToppingSize> size;  ///< toppings; the body is what the moulds hold
  std::string when;                 ///< free words: when to put it on
  std::vector<Addition> top_with;
  Written written;
};

/// What follows the pour.
struct AfterPour {
  std::optional<bool> cover;
  std::string unmould;                    ///< free words
  std::optional<double> look_from_hours;  ///< "look from 30 h"
  std::optional<double> cure_hours;
  bool stamp = false, bevel = false;  ///< whether bars are stamped, their edges bevelled
  std::string release_test;           ///< "every part"
  std::string release_before;         ///< "selling"
};

/// One making of a recipe of several parts.
struct BatchFile {
  enum class LyePot { one, each_part };
  std::string file, folder, name;
  std::optional<Date> bench_date;
  std::optional<double> room_celsius;
  std::vector<Mould> moulds;
  std::optional<MakeSize> make;  ///< instead of moulds
  std::optional<Cut> cut;
  std::optional<Samples> samples;
  double left_in_pot = 0;             ///< fraction of the body that stays on bowls and tools
  std::optional<double> start_hours;  ///< h after midnight when work begins
  std::vector<Premix> premixes;
  LyePot lye_pot = LyePot::each_part;
  LyeWish lye;              ///< for all parts, where a part does not say otherwise
  LyeWish own_lye;          ///< of it what this file says itself, nothing from its workshop
  std::vector<Part> parts;  ///< in file order; the first without `size` is the body
  AfterPour after;
  Scale scale;
  std::optional<FileName> shelf;
  std::optional<PackedIn> packed_in;
  bool recipe = false;  ///< read from a plain recipe
};

/// Returns a premixed oil as an oil of its own: its parts' figures as `figures_of` gives them, by
/// mass. Errors: InputError for a part that is no plain fat.
oils::Oil premixed(const Premix& premix,
                   const std::function<oils::Oil(const BlendOil&)>& figures_of);

/// Returns the library with a batch's premixed oils as oils of their own: figures are the
/// share-weighted sums of what is in them (saponification value and unsaponifiable with their
/// ranges; acids by typical share).
oils::Library with_premixes(const oils::Library& library, const std::vector<Premix>& premixes);

/// Returns a batch file; a recipe file as a batch of one part, "bar". Errors: InputError at file,
/// line and column.
BatchFile read_batch(const std::string& path, const oils::Library& library);
BatchFile read_batch_text(const std::string& text, const std::string& name,
                          const std::string& folder, const oils::Library& library);

}  // namespace barwright::targets
