// SPDX-License-Identifier: Apache-2.0
// Bays side by side: what is compared, how sure the order is, and the files that tell it.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/plan/other_crop.hpp"
#include "tidelot/report/bay.hpp"
#include "tidelot/report/map_writer.hpp"

namespace tidelot {

/// What a bay gives on one measure.
struct Measured {
  std::optional<double> best;      ///< best estimate; empty: not known, or nothing to divide by
  std::optional<double> p10, p90;  ///< over the members; empty where no member says
  /// Index = member; empty where members do not differ. A cost without nitrogen is infinite.
  std::vector<double> members;
  bool certain = false;  ///< no input whose error is stated bears on it in this bay
};

enum class Better { neither, more, less };

/// One thing that bays are compared on. The list is the one place for its name, unit and direction.
struct CompareMeasure {
  std::string_view key;   ///< of compare.csv and compare.json, unit in the name
  std::string_view unit;  ///< "" of a number or share
  Better better = Better::neither;
  int decimals = 2;  ///< of compare.csv
  Measured (*of)(const Bay& bay) = nullptr;
};
[[nodiscard]] std::span<const CompareMeasure> compare_measures();
/// The one that bays are put in order by: nitrogen that all ranked sites carry off in a year.
inline constexpr std::string_view kOrderMeasure = "nitrogen_all_sites_kg";

/// Metres of line, sites and area that a bay needs for an amount of nitrogen a year.
struct TargetNeed {
  int sites = 0;
  double line_m = 0.0, lease_ha = 0.0, nitrogen_kg = 0.0;
};
struct TargetFinding {
  std::optional<TargetNeed> best;         ///< empty: it cannot be reached
  std::optional<TargetNeed> nine_in_ten;  ///< so that nine members in ten reach it; likewise
  double most_kg = 0.0;                   ///< that the sites found give together
  std::size_t sites_found = 0;
  bool all_found = false;  ///< the search ended because no more sites fit
};
/// The first sites in their order until the target is met; each gives what it gives while all of
/// them are farmed at once.
[[nodiscard]] TargetFinding target_finding(const Bay& bay, double target_kg, bool all_found);

/// The map of a bay as compare.html shows it: nitrogen per metre of line, a value a sample.
struct BayPicture {
  static constexpr float kLand = -1e9F, kUnknown = -2e9F, kClosed = -3e9F, kOutside = -4e9F;
  int cols = 0, rows = 0;
  double sample_m = 0.0;               ///< side of a sample, true metres: the same in every bay
  std::vector<float> values;           ///< g/m, or one of the above
  std::vector<std::vector<XY>> sites;  ///< corners, in samples from the north-west corner
};

/// What a bay gives with a second crop. The first crop's own run is the bay's.
struct TwoCrops {
  CropYield second;  ///< on the best sites of its own
  CropsInTurn turn;
  std::vector<AssumedKey> assumed_of_first, assumed_of_second;  ///< other keys than the plan's
};

struct ComparedBay {
  std::string name;  ///< no two alike
  Bay bay;
  std::optional<BayPicture> picture;
  std::optional<TargetFinding> target;
  std::optional<TwoCrops> crops;  ///< where two crops are compared
};

/// The two crops' names.
struct CropPair {
  std::string first, second;
};

struct FailedBay {
  std::string plan, why;
};

/// A key of the measure that is not the same in all plans.
struct KeyDifference {
  std::string key;
  std::vector<std::string> values;  ///< as JSON, in the order of the plans; "" where not there
};

struct Comparison {
  std::vector<ComparedBay> bays;  ///< in the order of the plans
  std::vector<FailedBay> failed;
  std::vector<std::string> names;  ///< of all plans that could be read: heads of differences
  std::vector<KeyDifference> differences;  ///< empty: measured alike
  std::optional<double> target_kg;
  std::optional<CropPair> crops;  ///< then every bay is told for each of them, and in turn
  ReportPlan::Units units = ReportPlan::Units::both;
  std::shared_ptr<const Labels> labels = Labels::built_in();  ///< never null
};

/// How sure the order of the bays is on one measure.
struct PairChance {
  std::size_t a = 0, b = 0;  ///< index of the bays, a before b
  double a_better = 0.0;     ///< share of paired members; equal ones count half
  bool tie = false;          ///< neither is better often enough to say so
};
struct MeasureOrder {
  std::size_t measure = 0;                  ///< index in compare_measures()
  std::vector<std::size_t> order;           ///< of the bays, the best first; without a value: last
  std::vector<PairChance> pairs;            ///< empty where members are not paired or do not differ
  std::vector<std::vector<double>> places;  ///< [bay][place]: share of members; likewise
};
/// Are the members of all bays drawn alike, so that member i of each has the same crop?
[[nodiscard]] bool paired(const Comparison& all);
/// Every measure that has a direction, in the order of the list.
[[nodiscard]] std::vector<MeasureOrder> orders_of(const Comparison& all);
/// The same by what two crops in turn carry off in a year; a bay in which they cannot follow each
/// other has no value.
[[nodiscard]] MeasureOrder order_in_turn(const Comparison& all);
/// Both crops' yield or nitrogen of the year, member by member: member i has the same water in
/// both.
[[nodiscard]] Measured yield_in_turn(const CropsInTurn& turn);
[[nodiscard]] Measured nitrogen_in_turn(const CropsInTurn& turn);
/// Of one crop. crop_yield_of: of the bay's own run.
[[nodiscard]] CropYield crop_yield_of(const Bay& bay);
/// The months in which it is in the water, 1 to 12, in the order of the season.
[[nodiscard]] std::vector<int> months_of(const CropYield& crop);
[[nodiscard]] Measured yield_of(const CropYield& crop);
[[nodiscard]] Measured nitrogen_of(const CropYield& crop);
/// A bay is in a tie with the one after it.
[[nodiscard]] bool ties_with_next(const MeasureOrder& order, std::size_t place);

/// A layer of one bay whose error makes much of the difference between two bays.
struct ToMeasure {
  std::size_t bay = 0;
  std::string input, basis;
  bool judged = false;  ///< nobody measured it there
  double share = 0.0;   ///< of the variance of the difference
};
/// What to measure so that the first two in order are told apart: shares told from chance, the
/// largest first.
[[nodiscard]] std::vector<ToMeasure> to_measure(const Comparison& all, const MeasureOrder& order);

/// A row an estuary; columns as in docs/user/compare.md.
[[nodiscard]] std::string compare_csv(const Comparison& all);
[[nodiscard]] std::string compare_json(const Comparison& all);
/// One self-contained page without a script: no request leaves it. Prints on two pages.
[[nodiscard]] std::string compare_html(const Comparison& all, MapWriter& pictures);

}  // namespace tidelot
