// SPDX-License-Identifier: Apache-2.0
// Runs a fuzzer over the files of folders once each: what every test run does with the seeds.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count);

int main(int argc, char** argv) {
  std::vector<std::filesystem::path> seeds;
  for (int i = 1; i < argc; ++i) {
    for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
      seeds.push_back(entry.path());
    }
  }
  std::sort(seeds.begin(), seeds.end());
  for (const auto& seed : seeds) {
    std::printf("%s\n", seed.c_str());
    std::fflush(stdout);  // the last one named is the one that broke a promise
    std::ifstream file(seed, std::ios::binary);
    const std::vector<char> bytes(std::istreambuf_iterator<char>(file), {});
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  return seeds.empty() ? 1 : 0;
}
