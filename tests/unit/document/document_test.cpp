#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

std::string refusal(std::string_view text, DocumentLimits limits = {}) {
  return testing::refusal_of([&] { parse_document(text, "f.json", limits); });
}

TEST(Document, EveryNodeKnowsItsPointerAndLine) {
  const Document document =
      parse_document("{\n  \"a/b\": [1,\n   22\n, {\"m~n\": true}],\n  \"c\": null,\n\"d\":\n\"x\"\n}", "f");
  const ValueNode& list = *document.root.find("a/b");
  EXPECT_EQ(document.root.line(), 1);
  EXPECT_EQ(document.root.pointer(), "");
  EXPECT_EQ(list.pointer(), "/a~1b");
  EXPECT_EQ(list.line(), 2);
  EXPECT_EQ(list.array()->at(0).pointer(), "/a~1b/0");
  EXPECT_EQ(list.array()->at(0).line(), 2);
  EXPECT_EQ(list.array()->at(1).line(), 3);
  EXPECT_EQ(list.array()->at(2).line(), 4);
  EXPECT_EQ(list.array()->at(2).find("m~n")->pointer(), "/a~1b/2/m~0n");
  EXPECT_EQ(document.root.find("c")->line(), 5);
  EXPECT_EQ(document.root.find("d")->line(), 7);
}

// The parser knows that a bare number has ended only after the character behind it.
TEST(Document, ANumberBeforeALineEndHasTheLineItStandsOn) {
  const Document document = parse_document("[1\n,2\n\n,3.5e0\n,\n-4\n]", "f");
  const ValueNode::Array& list = *document.root.array();
  EXPECT_EQ(list[0].line(), 1);
  EXPECT_EQ(list[1].line(), 2);
  EXPECT_EQ(list[2].line(), 4);
  EXPECT_EQ(list[3].line(), 6);
  EXPECT_EQ(parse_document("7", "f").root.line(), 1);
  EXPECT_EQ(parse_document("7\n", "f").root.line(), 1);
}

TEST(Document, ReadsEveryTypeOfValue) {
  const Document document =
      parse_document(R"([null, true, -2, 18446744073709551615, 1.25e-3, "tä\u00dfx\n", [], {}])", "f");
  const ValueNode::Array& list = *document.root.array();
  EXPECT_TRUE(std::holds_alternative<std::monostate>(list[0].value()));
  EXPECT_EQ(*list[1].flag(), true);
  EXPECT_EQ(*list[2].number(), -2.0);
  EXPECT_EQ(*list[3].number(), 18446744073709551616.0);
  EXPECT_EQ(*list[4].number(), 1.25e-3);
  EXPECT_EQ(*list[5].text(), "tä\xC3\x9Fx\n");
  EXPECT_TRUE(list[6].array()->empty());
  EXPECT_TRUE(list[7].members()->empty());
}

TEST(Document, MembersKeepTheOrderOfTheFile) {
  const Document document = parse_document(R"({"z":1,"a":2,"m":3})", "f");
  EXPECT_EQ(document.root.members()->at(0).first, "z");
  EXPECT_EQ(document.root.members()->at(2).first, "m");
}

TEST(Document, SkipsAByteOrderMark) { EXPECT_TRUE(parse_document("\xEF\xBB\xBF[]", "f").root.array()->empty()); }

struct Bad {
  const char* text;
  const char* refusal;
};

TEST(Document, RefusesBadSyntaxWithItsPlaceAndWhatIsExpected) {
  const Bad all[] = {
      Bad{"", "f.json: is empty; expected a JSON document"},
      Bad{" \n\t", "f.json: is empty; expected a JSON document"},
      Bad{"\xEF\xBB\xBF", "f.json: is empty; expected a JSON document"},
      Bad{"\xFF\xFE{", "f.json: is UTF-16 text; save the file as UTF-8"},
      Bad{"PK\x03\x04", "f.json: is a compressed file; expected a JSON document"},
      Bad{"{\n\"a\": 1,\n}", "f.json:3: a comma before \"}\"; remove it"},
      Bad{"{\"a\": [1, 2,\n ]}", "f.json:2: /a: a comma before \"]\"; remove it"},
      Bad{"{\"a\": 1\n \"b\": 2}", "f.json:2: found \"b\"; a comma is missing before it"},
      Bad{"[1\n 2]", "f.json:2: found \"2\"; a comma is missing before it"},
      Bad{"{\"a\" 1}", "f.json:1: found \"1\"; expected \":\""},
      Bad{"{1: 2}", "f.json:1: found \"1\"; expected a field name in double quotes"},
      Bad{"{a: 2}", "f.json:1: found \"a\"; expected a field name in double quotes"},
      Bad{"{\"a\": 1 true}", "f.json:1: found \"true\"; a comma is missing before it"},
      Bad{"[tru]", "f.json:1: found \"tru\"; expected a value (text stands in double quotes)"},
      Bad{"[1:2]", "f.json:1: found \":\"; expected \"]\""},
      Bad{"{\"a\"}", "f.json:1: found \"}\"; expected \":\""},
      Bad{"[\"\x80\"]", "f.json:1: byte 0x80 is not UTF-8; save the file as UTF-8"},
      Bad{"{\"a\\u001b\": 1}", "f.json:1: control or invisible characters in the field name \"a\\x1b\""},
      Bad{"{\"a\\tb\": 1}", "f.json:1: control or invisible characters in the field name \"a\\tb\""},
      Bad{"{\"a\\u202eb\": 1}", "f.json:1: control or invisible characters in the field name \"a\\u202eb\""},
      Bad{"{\"q\\\"\\\\\": [1,]}", "f.json:1: /q\"\\: a comma before \"]\"; remove it"},
      Bad{"{\"a\": 11.0 kohm}", "f.json:1: found \"kohm\"; expected a value (text stands in double quotes)"},
      Bad{"{'a': 2}", "f.json:1: found \"'\"; JSON text stands in straight double quotes"},
      Bad{"[\xE2\x80\x9C"
          "a\xE2\x80\x9D]",
          "f.json:1: found \"\xE2\x80\x9C"
          "a\xE2\x80\x9D\"; JSON text stands in straight double quotes"},
      Bad{"[1] // done", "f.json:1: found \"/\"; JSON has no comments, remove it"},
      Bad{"[True]", "f.json:1: found True; expected true"},
      Bad{"[None]", "f.json:1: found None; expected null"},
      Bad{"[NaN]", "f.json:1: found NaN; a JSON number is finite, and a quantity is text such as \"11.0 kohm\""},
      Bad{"[-Infinity]",
          "f.json:1: found -Infinity; a JSON number is finite, and a quantity is text such as \"11.0 kohm\""},
      Bad{"{\n\"r\": 1e999}", "f.json:2: \"1e999\" is too large for a number"},
      Bad{"[1.]", "f.json:1: \"1.\" is not a JSON number"},
      Bad{"[\n-]", "f.json:2: \"-\" is not a JSON number"},
      Bad{"{\"a\": \"b", "f.json:1: a text without its closing quote on this line"},
      Bad{"{\"a\": \"b\n\"}", "f.json:1: a text without its closing quote on this line"},
      Bad{"{\"a\": [1, 2", "f.json:1: /a: the document ends too early; expected \"]\""},
      Bad{"{\"a\":\n", "f.json:1: the document ends too early; expected a value"},
      Bad{"[1]]", "f.json:1: found \"]\"; expected nothing more"},
      Bad{"[1}", "f.json:1: found \"}\"; expected \"]\""},
      Bad{"[\"caf\xE9\"]", "f.json:1: byte 0xE9 is not UTF-8; save the file as UTF-8"},
      Bad{"[\"a\\qb\"]", "f.json:1: a text that JSON does not allow: forbidden character after backslash"},
      Bad{"[\"a\\u0007b\"]", "f.json:1: /0: control characters in the text \"a\\x07b\""}};
  for (const Bad& bad : all) EXPECT_EQ(refusal(bad.text), bad.refusal) << bad.text;
}

TEST(Document, RefusesNulBytesAsNoText) {
  EXPECT_EQ(refusal(std::string_view("\x7F"
                                     "ELF\0\0[]",
                                     8)),
            "f.json: is not text: it holds NUL bytes; expected a JSON document");
}

TEST(Document, NamesBothLinesOfAFieldThatStandsTwiceAndGoesOn) {
  EXPECT_EQ(refusal("{\n\"a\": 1,\n\"b\": {\"c\": 1, \"c\": 2},\n\"a\": 3\n}"),
            "f.json:3: /b/c: the field \"c\" stands twice, first on line 3; keep one\n"
            "f.json:4: /a: the field \"a\" stands twice, first on line 2; keep one");
}

TEST(Document, KeepsTheFirstOfAFieldThatStandsTwiceForWhoeverChecksItFurther) {
  const Document document =
      parse_document_to_check("{\"a\": {\"b\": 1},\n\"a\": {\"c\": 2, \"c\": 3},\n\"d\": \"\\u0007\"}", "f.json");
  ASSERT_EQ(document.root.members()->size(), 2U);
  EXPECT_EQ(*document.root.find("a")->find("b")->number(), 1.0);
  ASSERT_EQ(document.problems.size(), 3U);
  EXPECT_EQ(document.problems[0].text, "the field \"a\" stands twice, first on line 1; keep one");
  EXPECT_EQ(document.problems[1].pointer, "/a/c");
  EXPECT_EQ(document.problems[2].pointer, "/d");
  EXPECT_EQ(testing::refusal_of([] { parse_document_to_check("{\"a\": 1, \"a\": 2,", "f.json"); }),
            "f.json:1: /a: the field \"a\" stands twice, first on line 1; keep one\n"
            "f.json:1: the document ends too early; expected a field name in double quotes");
}

TEST(Document, RefusesMoreThan64Levels) {
  const std::string deep(64, '[');
  EXPECT_EQ(refusal(deep + std::string(64, ']')), "");
  EXPECT_THAT(refusal('[' + deep + std::string(65, ']')),
              ::testing::EndsWith("more than 64 arrays and objects inside each other"));
  EXPECT_THAT(refusal(std::string(1'000'000, '[')), ::testing::EndsWith("inside each other"));
}

TEST(Document, RefusesWhatWouldTakeTheMemory) {
  std::string many = "[0";
  for (int i = 0; i < 200'000; ++i) many += ",0";
  EXPECT_EQ(refusal(many + ']'), "f.json:1: more than 200000 values in one document");
  EXPECT_EQ(refusal("{\"" + std::string(300, 'n') + "\": 1}"),
            "f.json:1: a field name of 300 bytes; at most 256 bytes are read");
  EXPECT_EQ(refusal("[\"" + std::string(5000, 'n') + "\"]"),
            "f.json:1: a text of 5000 bytes; at most 1024 bytes are read");
  EXPECT_EQ(refusal(std::string(17U << 20U, ' ')), "f.json: is longer than a document may be, 16.8 MB");
  std::string repeated = "{\"a\":0";
  for (int i = 0; i < 300; ++i) repeated += ",\"a\":0";
  EXPECT_THAT(refusal(repeated + '}'), ::testing::EndsWith("f.json:1: and more of the same"));
}

}  // namespace
}  // namespace ohmwright
