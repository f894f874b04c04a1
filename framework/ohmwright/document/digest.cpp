#include <array>
#include <sodium/core.h>
#include <sodium/crypto_generichash.h>
#include <sodium/utils.h>

#include <ohmwright/document/digest.hpp>

namespace ohmwright {

std::string in_hexadecimal(std::span<const unsigned char> bytes) {
  std::string text(2 * bytes.size() + 1, '\0');  // libsodium writes an end mark
  sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
  text.pop_back();
  return text;
}

std::string blake2b_of(std::string_view bytes) {
  // Picks the instructions of this processor; where it cannot, the digest is right too, only slower.
  [[maybe_unused]] const int state = sodium_init();
  std::array<unsigned char, 32> digest{};
  crypto_generichash(digest.data(), digest.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                     nullptr, 0);
  return in_hexadecimal(digest);
}

}  // namespace ohmwright
