// SPDX-License-Identifier: Apache-2.0
// The parts of compare.html.
#pragma once

#include <string>
#include <vector>

#include "tidelot/report/compare.hpp"

namespace tidelot::page {

/// The bays' maps at one scale and one range of colours, with their key; "" without pictures.
[[nodiscard]] std::string compare_maps(const Comparison& all, MapWriter& pictures);
/// The bays in order, with the chance of every place.
[[nodiscard]] std::string order_table(const Comparison& all,
                                      const std::vector<MeasureOrder>& orders);
/// What each bay gives: tables with a row an estuary.
[[nodiscard]] std::string measure_tables(const Comparison& all);
/// The chance that one bay is better than another, for every pair; of many bays, for those that
/// follow each other in order.
[[nodiscard]] std::string pair_table(const Comparison& all,
                                     const std::vector<MeasureOrder>& orders);
/// Metres, sites and hectares for the target, "" where none was asked for.
[[nodiscard]] std::string target_table(const Comparison& all);
/// Two crops a year: what each gives, both in turn, their months, what was assumed. Only where two
/// crops are compared.
[[nodiscard]] std::string crops_section(const Comparison& all);
/// A table's caption with what stands on the page's head, too: not alike, partial.
[[nodiscard]] std::string caption_of(std::string words, const Comparison& all);

}  // namespace tidelot::page
