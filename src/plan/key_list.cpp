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

/// What a key means, where the starter has no line for it that says so.
constexpr Key meant(Key key, std::string_view meaning, std::string_view unit = "") {
  key.meaning = meaning;
  key.unit = unit;
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
    meant(required(plain(text, "depth.sources", "name")),
          "printed where the depth of a site comes from; each its own"),
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
    meant(plain(text, "land", "layer"), "where the file has more than one"),
    meant(plain(free_text, "land", "where"), "only these features"),
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
    meant(plain(text, "water.current", "eastward"),
          "instead of variable: the part of the current that runs east"),
    meant(plain(text, "water.current", "northward"), "and the part that runs north"),
    meant(range(number_or_file, "water.current", "direction", -360, 360),
          "where the current runs; sites then lie along it", "degrees from true north"),
    plain(monthly_file, "water.*", "file"),
    plain(text, "water.*", "variable"),
    meant(plain(text, "water.*", "crs"), "where the file states no reference system"),
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
    meant(plain(twelve, "water.*", "monthly"), "January to December, the same everywhere",
          "the unit of the values"),
    meant(range(number, "water.*", "constant", -kAny, kAny),
          "the same all year and everywhere (a poor guess for all but current)",
          "the unit of the values"),
    meant(plain(text, "water.*", "unit"),
          "unit of the values; may be left out where the file says it"),
    meant(range(number, "water.*", "error", 0, 1e9),
          "one standard deviation of the values; it feeds the uncertainty",
          "the unit of the values"),
    choice_of("water.*", "steps", "auto|monthly|daily"),

    meant(plain(text, "columns", "lon"), "header of the longitudes, decimal degrees"),
    meant(plain(text, "columns", "lat"), "header of the latitudes, decimal degrees"),
    meant(plain(text, "columns", "date"),
          "header of the dates: YYYY-MM-DD, YYYY/MM/DD, DD-Mon-YYYY or DD Mon YYYY"),
    meant(plain(text, "columns", "value"), "header of the values"),
    meant(plain(text, "columns", "unit"), "header of the unit of a row"),
    meant(plain(text, "columns", "depth"), "header of the depth of a sample"),
    meant(plain(text, "columns", "depth_unit"), "header of that depth's unit"),
    meant(plain(text, "columns", "level"),
          "header of words for the depth: Surface, Midwater, Bottom"),
    meant(plain(text, "columns", "time"), "header of the time of day"),
    meant(plain(text, "columns", "timezone"), "header of the time's zone"),
    meant(plain(text, "columns", "qualifier"), "header of remarks on a result: said, not judged"),
    meant(plain(text, "columns", "activity"),
          "header of the kind of sampling: quality control is left out"),
    meant(plain(text, "columns", "medium"),
          "header of what was sampled: all but water is left out"),
    meant(plain(text, "columns", "status"),
          "header of the state of a result: rejected ones are left out"),
    meant(plain(text, "columns", "station"), "header of the name of a place"),
    meant(plain(text, "columns", "characteristic"), "header of what was measured"),
    meant(plain(text, "columns", "fraction"),
          "header of the fraction (dissolved, total): said, not judged"),
    meant(plain(text, "columns", "speciation"),
          "header of what a mass is counted as: as N, as NO3"),
    meant(plain(text, "columns", "detection"), "header of whether a result was detected"),
    meant(plain(text, "columns", "limit"), "header of the detection limit"),
    meant(plain(text, "columns", "limit_unit"), "header of that limit's unit"),
    meant(plain(text, "columns", "datum"),
          "header of the datum of a position: NAD27, NAD83, WGS84"),

    plain(day, "season", "gear_in"),
    meant(plain(day, "season", "gear_out"), "end of the permit's window, month-day"),
    choice_of("season", "daily", "mean|linear", R"("mean")",
              "method of this program: keeps each month's mean"),

    range(number_or_twelve, "sun", "sunshine", 0, 1, "0.5", kJudgement),
    plain(file, "sun", "file"),
    meant(plain(text, "sun", "variable"), "where a NetCDF file has more than one"),
    plain(text, "sun", "unit"),

    required(plain(text, "closed", "name")),
    required(plain(file, "closed", "file")),
    plain(text, "closed", "layer"),
    meant(plain(text, "closed", "crs"), "where the file states no reference system"),
    plain(free_text, "closed", "where"),
    range(number, "closed", "setback_m", 0, 100000, "0.0", "no setback stated: closed inside only"),
    plain(text, "closed", "setback_field"),
    plain(text, "closed", "status_field"),
    choice_of("closed", "effect", "close|caution", R"("close")", "the careful reading"),
    plain(months, "closed", "months"),
    choice_of("closed", "only_for", "food"),
    choice_of("closed", "sheet", "auto|uses|habitat", R"("auto")", "by the words in its name"),
    meant(plain(free_text, "closed", "rule", R"("")", "no rule given"),
          "authority, section and date, printed in the reports"),

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
    meant(required(range(judgements, "criteria.judgement", "compare", 1.0 / 9.0, 9.0)),
          "how many times as important the first is as the second, 1/9 to 9; every pair once"),
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
    meant(plain(file, "criteria.slope", "file"),
          "a raster of slopes of your own, in place of the depths' own"),
    meant(plain(text, "criteria.slope", "variable"), "where the file has more than one"),
    meant(plain(text, "criteria.slope", "unit"), "printed"),
    plain(curve, "criteria.slope", "curve", "[[5, 1], [10, 0]]", kPractice),
    range(number, "criteria.slope", "weight", 0, 1e6, "1", kJudgement),
    required(plain(curve, "criteria.access", "curve")),
    range(number, "criteria.access", "weight", 0, 1e6, "1", kJudgement),
    meant(required(plain(file, "criteria.*", "file")), "a raster of the measure"),
    plain(text, "criteria.*", "variable"),
    plain(text, "criteria.*", "unit"),
    meant(required(plain(curve, "criteria.*", "curve")),
          "score of the measure, 0 to 1, straight between the points"),
    meant(range(number, "criteria.*", "weight", 0, 1e6, "1", kJudgement),
          "how much the criterion counts beside the others"),

    range(whole, "sites", "count", 1, 10000, "10", kChoice),
    choice_of("sites", "shape", "box|line", R"("box")", kChoice),
    range(number, "sites", "area_ha", 0.0001, 100000, "1.2", kJudgement),
    range(number, "sites", "length_to_width", 1, 100000, "3.0", kJudgement),
    choice_of("sites", "along", "current", R"("current")", kPractice),
    range(number, "sites", "gap_m", 0, 100000, "100.0", kJudgement),
    range(number, "sites", "min_suitability", 0, 1, "0.3", kJudgement),
    plain(lon_lat, "sites", "landing"),
    range(number, "sites", "draft_m", 0, 20, "0.0", "any depth of water is a way"),
    plain(boxes, "sites", "own_corners"),

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
    meant(plain(free_text, "report", "waterbody", R"("")", kBlank), "title block of the sheets"),
    range(number, "report", "marker_gap_m", 1, 100000, "90",
          "published (a permit notice: 300 ft at most)"),
    choice_of("report", "units", "metric|us|both", R"("both")", kChoice),
    choice_of("report", "datum", "WGS 84|NAD 83", R"("WGS 84")", kChoice),
    choice_of("report", "what_if", "yes|no", R"("yes")", kChoice),
    plain(tables, "report", "marks"),
    meant(required(plain(text, "report.marks", "name")),
          "what the mark is called, on the site sheets"),
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
    meant(range(number, "field", "range_m", 1, 100000, "500.0",
                "judgement: beyond, a reading says nothing of the water"),
          "with apply = \"replace\": how far a reading reaches, by way of the water"),

    words_of("run", "allow", "ballpark|outside|network", "[]", "the careful reading"),
    choice_of("run", "codec", "zstd|deflate", R"("zstd")", kChoice),
    promised("run", "growth"),
};

}  // namespace

std::span<const Key> keys() { return kKeys; }

}  // namespace tidelot::planfile
