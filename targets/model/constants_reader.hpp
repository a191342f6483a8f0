#pragma once

#include "targets/model/constants.hpp"

namespace barwright::targets {

/// The same, the files parsed.
std::shared_ptr<const ConstantTable> read_constants(const oils::yaml::Document& model,
                                                    const oils::yaml::Document& sources,
                                                    const oils::yaml::Document& titres);

/// Reads the three files, given as texts. Errors: core::InputError at file, line and column for an
/// unknown, missing or duplicate constant, a missing unit, mark, source or spread, an unknown
/// source.
std::shared_ptr<const ConstantTable> read_constants(const std::string& model,
                                                    const std::string& sources,
                                                    const std::string& titres);

}  // namespace barwright::targets
