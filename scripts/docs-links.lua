-- SPDX-License-Identifier: Apache-2.0
-- Links of the pages for scripts/docs. HTML: to the page's .html; what lies outside docs/user and
-- docs/science is no page there, and stays as its words. Manual pages: the words alone, since a path
-- leads nowhere in them; pictures likewise.
local to = "html"

local function outside(target)
  return target:match("^%.%./%.%./") or target:match("%.%./design/") or target:match("^%.%./CHANGELOG")
end

local function link(element)
  if element.target:match("^%a+:") then
    return nil
  end
  if to == "man" or outside(element.target) then
    return element.content
  end
  element.target = element.target:gsub("%.md$", ".html"):gsub("%.md#", ".html#")
  if element.target:match("/$") or not element.target:match("[%.#]") then
    return element.content
  end
  return element
end

local function picture(element)
  return to == "man" and element.caption or nil
end

return {
  { Meta = function(meta) to = pandoc.utils.stringify(meta.to) end },
  { Link = link, Image = picture },
}
