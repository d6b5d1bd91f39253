// SPDX-License-Identifier: Apache-2.0
#include <array>

#include "plan/key_table.hpp"

namespace tidelot::planfile {
namespace {

using enum Kind;

constexpr std::string_view kPractice = "common practice, no source";
constexpr std::string_view kJudgement = "judgement";
constexpr std::string_view kMethod = "method of this program";
constexpr std::string_view kChoice = "choice of this program";
constexpr std::string_view kBlank = "left blank";
constexpr std::string_view kProfile = "season rule of the crop profile";

constexpr double kAny = std::numeric_limits<double>::infinity();

constexpr Key plain(Kind kind, std::string_view table, std::string_view name,
                    std::string_view fallback = "", std::string_view basis = "") {
  return {.table = table, .name = name, .kind = kind, .fallback = fallback, .basis = basis};
}

constexpr Key promised(std::string_view table, std::string_view name) {
  return plain(later, table, name);
}

constexpr Key range(Kind kind, std::string_view table, std::string_view name, double low,
                    double high, std::string_view fallback = "", std::string_view basis = "") {
  Key key = plain(kind, table, name, fallback, basis);
  key.low = low;
  key.high = high;
  return key;
}

constexpr Key choice_of(std::string_view table, std::string_view name, std::string_view words,
                        std::string_view fallback = "", std::string_view basis = "") {
  Key key = plain(choice, table, name, fallback, basis);
  key.words = words;
  return key;
}

constexpr Key words_of(std::string_view table, std::string_view name, std::string_view words,
                       std::string_view fallback, std::string_view basis) {
  Key key = choice_of(table, name, words, fallback, basis);
  key.kind = Kind::words;
  return key;
}

constexpr Key required(Key key) {
  key.required = true;
  return key;
}

// Ranges are wide: they catch a slip (a unit, a lost point), they do not judge a farm.
constexpr std::array kKeys{
    required(plain(text, "", "title")),
    required(plain(table, "", "area")),
    required(plain(table, "", "depth")),
    plain(table, "", "land"),
    required(plain(table, "", "water")),
    plain(table, "", "season"),
    plain(table, "", "sun"),
    plain(tables, "", "closed"),
    plain(tables, "", "near"),
    required(plain(table, "", "crop")),
    plain(table, "", "farm"),
    plain(table, "", "waves"),
    plain(table, "", "criteria"),
    plain(table, "", "sites"),
    plain(table, "", "uncertainty"),
    plain(table, "", "load"),
    plain(table, "", "report"),
    plain(table, "", "money"),
    plain(table, "", "field"),
    plain(table, "", "run"),

    plain(bounds, "area", "bounds"),
    plain(file, "area", "outline"),
    required(range(number, "area", "cell_m", 0.1, 50000)),
    plain(text, "area", "crs", R"("auto")", kMethod),
    choice_of("area", "edge", "half|full|any", R"("half")", kJudgement),

    plain(file, "depth", "file"),  // this or sources
    plain(text, "depth", "variable"),
    plain(text, "depth", "layer"),
    plain(text, "depth", "field"),
    plain(text, "depth", "crs"),
    choice_of("depth", "positive", "down|up"),  // here, or in every source
    plain(text, "depth", "unit"),
    range(number, "depth", "longest_edge_m", 0.01, 1e6),
    required(plain(text, "depth", "datum")),
    range(number_or_file, "depth", "low_water_m", -100, 100, "0.0",
          "the datum is the low-water datum"),
    range(number, "depth", "tidal_range_m", 0, 20, "2.1", "judgement: set it for your bay"),
    range(number, "depth", "lowest_tide_m", -20, 20, "-0.4", "judgement: set it for your bay"),
    range(number, "depth", "error_m", 0, 100, "0.3",
          "judgement: near a harbour survey's 0.5 m at 95 % (IHO S-44, order 1, from memory)"),
    plain(tables, "depth", "sources"),
    required(plain(text, "depth.sources", "name")),
    required(plain(file, "depth.sources", "file")),
    plain(text, "depth.sources", "variable"),
    plain(text, "depth.sources", "layer"),
    plain(text, "depth.sources", "field"),
    plain(text, "depth.sources", "crs"),
    choice_of("depth.sources", "positive", "down|up"),
    plain(text, "depth.sources", "unit"),
    range(number, "depth.sources", "longest_edge_m", 0.01, 1e6),
    plain(text, "depth.sources", "datum"),
    range(number_or_file, "depth.sources", "low_water_m", -100, 100),
    range(number, "depth.sources", "feather_m", 0, 100000, "0.0", "the better source is cut off"),

    required(plain(file, "land", "file")),
    plain(text, "land", "layer"),
    plain(free_text, "land", "where"),
    choice_of("land", "inside", "land|water", R"("land")", kChoice),

    required(plain(table, "water", "temperature")),
    required(plain(table, "water", "salinity")),
    required(plain(table, "water", "light")),
    required(plain(table, "water", "nitrogen")),
    required(plain(table, "water", "current")),
    choice_of("water.light", "measure", "kd|secchi|turbidity|kd490", R"("kd")", kChoice),
    choice_of("water.light", "secchi_relation",
              "auto|poole-atkins-1929|holmes-1970|devlin-2008|montes-hugo-2005", R"("auto")",
              "judgement: Holmes 1970 below 5 m, Poole & Atkins 1929 from 5 m"),
    range(number, "water.light", "turbidity_intercept", 0, 10),
    range(number, "water.light", "turbidity_slope", 0, 10),
    plain(text, "water.nitrogen", "unit"),
    plain(table, "water.nitrogen", "nitrate"),
    plain(table, "water.nitrogen", "ammonium"),
    range(number, "water.nitrogen", "nh4_share", 0, 1, "0.4", kJudgement),
    plain(text, "water.current", "eastward"),
    plain(text, "water.current", "northward"),
    range(number_or_file, "water.current", "direction", -360, 360),
    plain(monthly_file, "water.*", "file"),
    plain(text, "water.*", "variable"),
    plain(text, "water.*", "crs"),
    plain(file, "water.*", "stations"),
    plain(table, "water.*", "columns"),
    plain(file, "water.*", "station_file"),
    plain(text, "water.*", "characteristic"),
    range(number, "water.*", "depth_max_m", 0, 12000, "2.0",
          "judgement: the crop hangs in the uppermost metres"),
    range(number, "water.*", "power", 0.1, 10, "2.0", "common practice, no source"),
    range(number, "water.*", "nugget_m", 0.01, 100000, "50.0",
          "judgement: nearer than this, readings stand for the same water"),
    range(number, "water.*", "snap_m", 0, 100000, "250.0",
          "judgement: positions are often rounded to 0.001 degrees or taken on a pier"),
    plain(twelve, "water.*", "monthly"),
    range(number, "water.*", "constant", -kAny, kAny),
    plain(text, "water.*", "unit"),
    range(number, "water.*", "error", 0, 1e9),
    choice_of("water.*", "steps", "auto|monthly|daily"),

    plain(text, "columns", "lon"),
    plain(text, "columns", "lat"),
    plain(text, "columns", "date"),
    plain(text, "columns", "value"),
    plain(text, "columns", "unit"),
    plain(text, "columns", "depth"),
    plain(text, "columns", "depth_unit"),
    plain(text, "columns", "level"),
    plain(text, "columns", "time"),
    plain(text, "columns", "timezone"),
    plain(text, "columns", "qualifier"),
    plain(text, "columns", "activity"),
    plain(text, "columns", "medium"),
    plain(text, "columns", "status"),
    plain(text, "columns", "station"),
    plain(text, "columns", "characteristic"),
    plain(text, "columns", "fraction"),
    plain(text, "columns", "speciation"),
    plain(text, "columns", "detection"),
    plain(text, "columns", "limit"),
    plain(text, "columns", "limit_unit"),
    plain(text, "columns", "datum"),

    plain(day, "season", "gear_in"),
    plain(day, "season", "gear_out"),
    choice_of("season", "daily", "mean|linear", R"("mean")",
              "method of this program: keeps each month's mean"),

    range(number_or_twelve, "sun", "sunshine", 0, 1, "0.5", kJudgement),
    plain(file, "sun", "file"),
    plain(text, "sun", "variable"),
    plain(text, "sun", "unit"),

    required(plain(text, "closed", "name")),
    required(plain(file, "closed", "file")),
    plain(text, "closed", "layer"),
    plain(text, "closed", "crs"),
    plain(free_text, "closed", "where"),
    range(number, "closed", "setback_m", 0, 100000, "0.0", "no setback stated: closed inside only"),
    plain(text, "closed", "setback_field"),
    plain(text, "closed", "status_field"),
    choice_of("closed", "effect", "close|caution", R"("close")", "the careful reading"),
    plain(months, "closed", "months"),
    choice_of("closed", "only_for", "food"),
    choice_of("closed", "sheet", "auto|uses|habitat", R"("auto")", "by the words in its name"),
    plain(free_text, "closed", "rule", R"("")", "no rule given"),

    required(plain(text, "near", "name")),
    required(plain(file, "near", "file")),
    plain(text, "near", "layer"),
    plain(text, "near", "crs"),
    plain(free_text, "near", "where"),
    required(range(number, "near", "distance_m", 0, 100000)),
    range(whole, "near", "count", 0, 1e6, "0", "the careful reading: none"),
    choice_of("near", "effect", "caution|close", R"("caution")",
              "choice of this program: closed areas are [[closed]]"),
    choice_of("near", "sheet", "auto|uses|habitat", R"("auto")", "by the words in its name"),
    plain(free_text, "near", "rule", R"("")", "no rule given"),

    required(plain(text, "crop", "profile")),
    plain(numbers_table, "crop", "set"),
    choice_of("crop", "boundary_layer", "current|mass_transfer", R"("current")", kJudgement),

    choice_of("farm", "line", "floats|fixed", R"("floats")", kPractice),
    range(number, "farm", "line_depth_m", 0, 50, "1.0",
          "published range 0.2 to 1 m (Anderson et al. 1996)"),
    range(number, "farm", "line_gap_m", 0.1, 1000, "6.0", kPractice),
    range(number, "farm", "margin_m", 0, 10000, "15.0",
          "published (a permit notice: 50 ft from line to boundary)"),
    range(number, "farm", "scope", 0, 20, "3.0", kPractice),
    range(number, "farm", "sag_m", 0, 50, "0.3", kPractice),
    range(number, "farm", "hang_m", 0, 50, "0.5", kPractice),
    range(number, "farm", "clearance_m", 0, 50, "1.0", kPractice),
    range(number, "farm", "stocking_g_per_m", 0.1, 100000, "100.0", kPractice),
    range(number, "farm", "bundle_m", 0.01, 100, "0.15", kPractice),
    range(whole, "farm", "harvest_days", 1, 365, "14", kPractice),
    plain(day_or_auto, "farm", "outplant", R"("auto")", kProfile),
    plain(day_or_auto, "farm", "last_haul", R"("auto")", kProfile),
    choice_of("farm", "use", "nutrient|food", R"("nutrient")", kChoice),
    range(number, "farm", "max_depth_m", 0.1, 1000),
    range(number, "farm", "max_wave_m", 0.05, 30),
    range(number, "farm", "max_current_m_s", 0.01, 10),

    required(plain(file, "waves", "winds")),
    range(number, "waves", "winds_height_m", 1, 300, "10", "the usual height of a wind record"),
    choice_of("waves", "form", "young_verhagen|shore_protection", R"("young_verhagen")",
              "published (Young & Verhagen 1996), coefficients read second-hand"),
    range(whole, "waves", "directions", 4, 360, "16", kJudgement),
    range(number, "waves", "open_km", 0, 2000, "50",
          "judgement, the careful reading: set it where the map ends in sheltered water"),
    range(number, "waves", "working_limit_m", 0.05, 10, "0.5", kPractice),

    plain(table, "criteria", "growth"),
    plain(table, "criteria", "depth"),
    plain(table, "criteria", "current"),
    plain(table, "criteria", "access"),
    plain(table, "criteria", "waves"),
    plain(table, "criteria", "slope"),
    plain(table, "criteria", "judgement"),
    choice_of("criteria", "combine", "geometric|minimum|both", R"("geometric")",
              "published (U.S. Fish & Wildlife Service 1981, ESM 103), from memory"),
    plain(table, "criteria", "*"),
    required(range(judgements, "criteria.judgement", "compare", 1.0 / 9.0, 9.0)),
    range(number, "criteria.judgement", "accept_ratio", 0, 1000, "0.1",
          "published (Saaty 1980), read second-hand"),
    plain(curve, "criteria.growth", "curve"),  // the crop profile's where it is not given
    range(number, "criteria.growth", "weight", 0, 1e6, "2", kJudgement),
    plain(curve, "criteria.depth", "curve", "[[3, 0], [5, 1], [15, 1], [30, 0]]", kPractice),
    range(number, "criteria.depth", "weight", 0, 1e6, "1", kJudgement),
    plain(curve, "criteria.current", "curve",
          "[[0.02, 0], [0.10, 1], [0.30, 1], [0.75, 0.3], [1.0, 0]]", kPractice),
    range(number, "criteria.current", "weight", 0, 1e6, "1", kJudgement),
    plain(curve, "criteria.waves", "curve", "[[0, 1], [1, 1], [2, 0]]", kJudgement),
    range(number, "criteria.waves", "weight", 0, 1e6, "1", kJudgement),
    plain(file, "criteria.slope", "file"),  // given: the user's own layer
    plain(text, "criteria.slope", "variable"),
    plain(text, "criteria.slope", "unit"),
    plain(curve, "criteria.slope", "curve", "[[5, 1], [10, 0]]", kPractice),
    range(number, "criteria.slope", "weight", 0, 1e6, "1", kJudgement),
    required(plain(curve, "criteria.access", "curve")),
    range(number, "criteria.access", "weight", 0, 1e6, "1", kJudgement),
    required(plain(file, "criteria.*", "file")),
    plain(text, "criteria.*", "variable"),
    plain(text, "criteria.*", "unit"),
    required(plain(curve, "criteria.*", "curve")),
    range(number, "criteria.*", "weight", 0, 1e6, "1", kJudgement),

    range(whole, "sites", "count", 1, 10000, "10", kChoice),
    choice_of("sites", "shape", "box|line", R"("box")", kChoice),
    range(number, "sites", "area_ha", 0.0001, 100000, "1.2", kJudgement),
    range(number, "sites", "length_to_width", 1, 100000, "3.0", kJudgement),
    choice_of("sites", "along", "current", R"("current")", kPractice),
    range(number, "sites", "gap_m", 0, 100000, "100.0", kJudgement),
    range(number, "sites", "min_suitability", 0, 1, "0.3", kJudgement),
    plain(lon_lat, "sites", "landing"),
    range(number, "sites", "draft_m", 0, 20, "0.0", "any depth of water is a way"),
    promised("sites", "own_corners"),

    range(whole, "uncertainty", "draws", 0, 1000, "64",
          "59 hold 95 % of what may come with 95 % confidence (Wilks 1941)"),
    range(whole, "uncertainty", "seed", 0, 9007199254740992.0, "1", kChoice),
    range(number, "uncertainty", "length_m", 1, 1e6),

    required(range(number, "load", "nitrogen_kg_per_year", 1, 1e12)),
    plain(free_text, "load", "kind", R"("")", "not stated"),
    plain(free_text, "load", "segment", R"("")", "not stated"),
    plain(free_text, "load", "period", R"("")", "not stated"),
    range(whole, "load", "year", 1900, 2200),
    range(number, "load", "goal_percent", 0.01, 100),
    range(number, "load", "residence_months", 0, 1200),

    plain(free_text, "report", "applicant", R"("")", kBlank),
    plain(free_text, "report", "waterbody", R"("")", kBlank),
    range(number, "report", "marker_gap_m", 1, 100000, "90",
          "published (a permit notice: 300 ft at most)"),
    choice_of("report", "units", "metric|us|both", R"("both")", kChoice),
    choice_of("report", "datum", "WGS 84|NAD 83", R"("WGS 84")", kChoice),
    choice_of("report", "what_if", "yes|no", R"("yes")", kChoice),
    plain(tables, "report", "marks"),
    required(plain(text, "report.marks", "name")),
    required(plain(lon_lat, "report.marks", "at")),
    plain(file, "report", "labels"),
    plain(text, "report", "date"),
    choice_of("report", "paper", "auto|letter|A4", R"("auto")",
              "A4 where units are metric alone, else US Letter"),
    range(whole, "report", "sheet_sites", 0, 100, "1", kChoice),

    range(number, "money", "per_line_m", 0, 1e9, "0.0", "not counted"),
    range(number, "money", "per_year", 0, 1e12, "0.0", "not counted"),

    required(plain(file, "field", "readings")),
    choice_of("field", "apply", "confidence|bias|replace", R"("confidence")",
              "common practice, no source: readings change no value unless asked to"),
    range(number, "field", "range_m", 1, 100000, "500.0",
          "judgement: beyond, a reading says nothing of the water"),

    words_of("run", "allow", "ballpark", "[]", "the careful reading"),
    choice_of("run", "codec", "zstd|deflate", R"("zstd")", kChoice),
    promised("run", "growth"),
};

}  // namespace

std::span<const Key> keys() { return kKeys; }

}  // namespace tidelot::planfile
