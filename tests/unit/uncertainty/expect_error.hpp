#pragma once

#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright::test {

/// Expects an `ohmwright::Error` of exactly this text and category.
template <typename Action>
void expect_error(const Action& action, ErrorCategory category, const std::string& text) {
  try {
    action();
    ADD_FAILURE() << "nothing was thrown; expected: " << text;
  } catch (const Error& error) {
    EXPECT_EQ(std::string(error.what()), text);
    EXPECT_EQ(error.category(), category);
  }
}

}  // namespace ohmwright::test
