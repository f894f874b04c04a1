#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace ohmwright::course {

/// 32 bytes that nobody else may know; wiped when they go.
class SecretKey {
 public:
  static constexpr std::size_t size = 32;

  SecretKey() = default;
  SecretKey(const SecretKey&) = default;
  SecretKey& operator=(const SecretKey&) = default;
  SecretKey(SecretKey&&) = default;
  SecretKey& operator=(SecretKey&&) = default;
  ~SecretKey();

  unsigned char* data() { return bytes_.data(); }
  const unsigned char* data() const { return bytes_.data(); }

 private:
  std::array<unsigned char, size> bytes_{};
};

/// Draws that follow from a secret: the ChaCha20 key stream of libsodium. The same secret gives the same draws with
/// every compiler; from what was drawn nobody finds the secret or the other draws.
class DrawStream {
 public:
  explicit DrawStream(SecretKey key) : key_(std::move(key)) {}

  /// Uniform on [0, 1), a multiple of 2⁻⁵³.
  double uniform();

 private:
  void refill();

  SecretKey key_;
  std::array<unsigned char, 512> block_{};
  std::size_t next_ = 512;
  std::uint32_t counter_ = 0;
};

/// What every draw of a set of exercises and the sealing of their key come from: passphrase and what the set is made of
/// (appliance, meter, lesson, seed, and the course's name). The bare seed gives nothing without the passphrase.
class CourseSecret {
 public:
  /// The shortest passphrase that is taken [bytes].
  static constexpr std::size_t least_passphrase = 8;

  /// Argon2id of libsodium: slow on purpose, since whoever holds an exercise may try passphrases. Throws InputError for
  /// a passphrase that is too short.
  CourseSecret(std::string_view passphrase, std::string_view made_of);

  /// The draws for one use ("truth", "meter") of the exercise with that index.
  DrawStream draws(std::string_view use, std::uint64_t index) const;
  /// A name for the exercise with that index that tells nothing of it: ten hexadecimal digits.
  std::string name(std::uint64_t index) const;
  /// `text` sealed (XSalsa20-Poly1305) as a JSON file. The nonce follows from the secret and the text, so that the same
  /// set has the same bytes and two texts never share a nonce; lengths are padded to whole 4 KiB.
  std::string seal(std::string_view text) const;

 private:
  CourseSecret() = default;
  friend std::string opened(std::string_view sealed, std::string_view passphrase, const std::string& file);

  SecretKey derived(std::string_view use, std::string_view of) const;

  std::array<unsigned char, 16> salt_{};
  SecretKey master_;
};

/// The text of a sealed key. Throws InputError for another passphrase, a file that was changed, and no key at all.
std::string opened(std::string_view sealed, std::string_view passphrase, const std::string& file);

/// Eight hexadecimal digits that nobody can foretell (libsodium's random numbers, of the system).
std::string random_word();

/// SHA-256 in 64 hexadecimal digits (FIPS 180-4): what chains a record, and what a page without libsodium can compute.
std::string sha256_text(std::string_view bytes);

}  // namespace ohmwright::course
