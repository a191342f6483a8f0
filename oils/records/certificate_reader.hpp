#pragma once

#include "oils/records/certificate.hpp"

namespace barwright::oils {

/// Returns the report on a maker's own record, typed from a certificate (file format of the
/// library's records, incomplete ones included). Errors: InputError at file, line and column.
RecordReport check_record(const yaml::Node& root, const Library& library);

RecordReport check_record_file(const std::string& path, const Library& library);

/// Returns the `certificate:` block of a lot: {ref: ..., saponification-value: 188.4 mg KOH/g,
/// iodine-value: 82 g I2/100 g, unsaponifiable: 0.9 %, acids: {C18:1: 72 %, ...}}. A value in
/// mg NaOH/g is turned into mg KOH/g. Errors: InputError at the node.
Certificate read_certificate(const yaml::Node& block);

/// Returns the record as it may join a library: where its figures are doubted against the
/// library's oil of that name (or `like`), `Oil::confirmed` says so with the maker's reason.
/// Errors: InputError at file, line and column, as `confirmation`.
Record read_own_record(const yaml::Node& root, const Library& library);

/// Returns the reason behind `confirmed:`. Errors: InputError where it gives none ("yes").
std::string read_reason(const yaml::Node& node);

}  // namespace barwright::oils
