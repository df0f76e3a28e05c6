// The diagnosis tried on random cases, as others see it.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

using nlohmann::ordered_json;

class SelfTestTest : public FolderTest {
 protected:
  ordered_json tried(const std::string& seed) const {
    const Ended ended =
        run_program_with({"diagnose", kMinimal, "--self-test", "3", "--seed", seed, "--watch", "1d",
                          "--runs", "100", "--json", "--cache", path("kept")});
    EXPECT_EQ(ended.code, 0) << ended.err;
    return ordered_json::parse(ended.out);
  }
};

TEST_F(SelfTestTest, SeedChoosesTheCasesAndTheLibraryIsKept) {
  const ordered_json first = tried("5");
  for (const char* key : {"cases", "top1", "top3", "mean_p_true", "ece", "brier",
                          "confidently_wrong", "mean_checks", "per_fault", "misses"})
    EXPECT_TRUE(first.contains(key)) << key;
  for (const char* key : {"exhaustive", "checklist", "random"})
    EXPECT_GT(first["cost_ratio"][key].get<double>(), 0) << key;
  const auto kept = std::filesystem::recursive_directory_iterator(path("kept"));
  EXPECT_GT(std::distance(begin(kept), end(kept)), 0);
  EXPECT_EQ(tried("5"), first);
  EXPECT_NE(tried("6")["per_fault"], first["per_fault"]);
}

}  // namespace
}  // namespace sixty::cli
