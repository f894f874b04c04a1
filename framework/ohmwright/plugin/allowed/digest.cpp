#include <algorithm>
#include <array>
#include <sodium/crypto_hash_sha256.h>
#include <span>
#include <string_view>
#include <vector>

#include <ohmwright/document/digest.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>

namespace ohmwright {

std::string sha256_of(const ByteSource& bytes) {
  constexpr std::size_t at_once = 65536;
  crypto_hash_sha256_state state{};
  crypto_hash_sha256_init(&state);
  std::vector<std::byte> buffer(at_once);
  for (std::uint64_t offset = 0; offset < bytes.size(); offset += at_once) {
    const auto length = static_cast<std::size_t>(std::min<std::uint64_t>(at_once, bytes.size() - offset));
    if (!bytes.read(offset, std::span(buffer).first(length))) return {};
    crypto_hash_sha256_update(&state, reinterpret_cast<const unsigned char*>(buffer.data()), length);
  }
  std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
  crypto_hash_sha256_final(&state, digest.data());
  return in_hexadecimal(digest);
}

bool is_sha256(std::string_view text) {
  return text.size() == std::size_t{2} * crypto_hash_sha256_BYTES &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

}  // namespace ohmwright
