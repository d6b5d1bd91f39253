// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace tidelot {

/// Names of the browsers that can print without a screen, in the order in which they are looked for
/// on PATH.
[[nodiscard]] std::span<const std::string_view> sheet_browsers();

/// The first of the names that is a program in a folder of a PATH ("/usr/bin:/bin"); none where
/// none is.
[[nodiscard]] std::optional<std::filesystem::path> program_on_path(
    std::span<const std::string_view> names, std::string_view path);

/// "file:///a%20b.html" of an absolute path.
[[nodiscard]] std::string file_url(const std::filesystem::path& path);

/// Throws Error(output) where a folder for the PDF cannot be: a file stands in its place.
void check_sheets_folder(const std::filesystem::path& folder);

/// Prints sheets.html to folder/sheets.pdf, a page a sheet, through the browser that is installed;
/// the folder is made. The browser sees no network, and its words are not shown. Gives the PDF;
/// none where no browser is installed. A PDF that stood there before is replaced, once the new one
/// is whole. Throws Error(output) when the browser fails, takes more than two minutes, or the PDF
/// cannot be written; Interrupted when stop is set.
[[nodiscard]] std::optional<std::filesystem::path> print_sheets_pdf(
    const std::filesystem::path& html, const std::filesystem::path& folder,
    const std::atomic<int>* stop = nullptr);

}  // namespace tidelot
