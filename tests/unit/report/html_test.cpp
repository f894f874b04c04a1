#include <gmock/gmock.h>

#include <ohmwright/report/html.hpp>

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TEST(HtmlText, EscapesWhatMarkupIsMadeOfAndDropsControls) {
  EXPECT_EQ(html_text("<b onclick=\"x('y')\"> & \x1b[31m\x7f\nkΩ"),
            "&lt;b onclick=&quot;x(&#39;y&#39;)&quot;&gt; &amp; [31mkΩ");
}

TEST(HtmlPage, LoadsNothingAndRunsNothing) {
  const std::string page = html_page("a <title>", "<p>body</p>\n");
  EXPECT_THAT(page, HasSubstr("default-src 'none'"));
  EXPECT_THAT(page, HasSubstr("<title>a &lt;title&gt;</title>"));
  EXPECT_THAT(page, HasSubstr("<p>body</p>"));
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(page, Not(HasSubstr("http://")));
  EXPECT_THAT(page, Not(HasSubstr("https://")));
}

TEST(HtmlPage, SaysAtItsFootWhatMadeIt) {
  EXPECT_THAT(html_page("a", "b", "made <here>"), HasSubstr("<footer>made &lt;here&gt;</footer>\n</body>"));
  EXPECT_THAT(html_page("a", "b"), Not(HasSubstr("<footer>")));
}

TEST(HtmlSection, OfNoLineIsNothing) {
  EXPECT_EQ(html_section("Why", {}), "");
  EXPECT_EQ(html_section("Why", {"a < b"}), "<h2>Why</h2>\n<ul>\n<li>a &lt; b</li>\n</ul>\n");
}

TEST(HtmlFolded, OpensWhenItIsPrinted) {
  EXPECT_EQ(html_folded("Why not", {}), "");
  EXPECT_EQ(html_folded("Why not", {"a < b"}),
            "<details>\n<summary>Why not</summary>\n<ul>\n<li>a &lt; b</li>\n</ul>\n</details>\n");
  EXPECT_THAT(html_page("a", "b"), HasSubstr("details::details-content { content-visibility: visible"));
}

TEST(HtmlPicture, IsAnImageInsideThePage) {
  // RFC 4648, section 10: the test vectors of base64.
  EXPECT_THAT(html_picture("fo", ""), HasSubstr("base64,Zm8=\""));
  EXPECT_THAT(html_picture("foo", ""), HasSubstr("base64,Zm9v\""));
  EXPECT_THAT(html_picture("foob", ""), HasSubstr("base64,Zm9vYg==\""));
  EXPECT_THAT(html_picture("foobar", ""), HasSubstr("base64,Zm9vYmFy\""));
  EXPECT_THAT(html_picture("", ""), HasSubstr("<div class=\"picture scrolls\">"));
  EXPECT_THAT(html_picture("", "", PictureFit::shrinks), HasSubstr("<div class=\"picture shrinks\">"));
  EXPECT_THAT(html_picture("", "a \"quote\""), HasSubstr("alt=\"a &quot;quote&quot;\""));
}

}  // namespace
}  // namespace ohmwright
