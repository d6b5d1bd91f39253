// SPDX-License-Identifier: Apache-2.0
#include "report/words/cautions.hpp"

#include "tidelot/report/report.hpp"

namespace tidelot {

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> texts{
      "Not for navigation. Charts and models behind this map may be old or wrong.",
      "This is a planning map, not a survey. Where your rules ask for one, a licensed surveyor "
      "sets the boundary.",
      "Anchors, lines and moorings must be designed for storm loads at this site by someone "
      "qualified to do so.",
      "Rules differ from place to place and change. The setbacks are those entered in the plan; "
      "confirm each with its authority before applying.",
      "Nobody has cleared this site for eelgrass, habitat or protected species. Ask the agencies "
      "and survey before setting gear.",
      "Lines in the water can entangle whales, turtles and seals. Keep them tight, few and marked; "
      "take gear out when the season ends.",
      "The growing-area class comes from the layer supplied, on the date printed. Only the "
      "shellfish authority can say whether harvest is open.",
      "Seaweed for food needs approved water, testing and records; removing nitrogen may not. Ask "
      "before you sell or eat it.",
      "Grow only native species and local strains that your authority allows, and have their "
      "identity checked.",
      "Yield and nitrogen are estimates with a range: not a credit, not a guarantee, not an "
      "engineering value.",
      "Hatched means no data. It does not mean good.",
      "A cell is an average. Go and look before you decide.",
  };
  return texts;
}

namespace page {

const std::vector<std::string>& short_cautions() {
  static const std::vector<std::string> texts{
      "not for navigation",
      "a planning map, not a survey",
      "moorings to be designed for storms by someone qualified",
      "confirm every setback with its authority",
      "not cleared for eelgrass, habitat or protected species",
      "lines can entangle whales, turtles and seals",
      "only the shellfish authority says whether harvest is open",
      "food needs approved water, testing and records",
      "native species and local strains only",
      "yield and nitrogen are estimates, not a credit",
      "hatched means no data, not good",
      "a cell is an average: go and look",
  };
  return texts;
}

}  // namespace page
}  // namespace tidelot
