#include <algorithm>
#include <sodium.h>
#include <span>
#include <vector>

#include <nlohmann/json.hpp>

#include <ohmwright/course/secret.hpp>
#include <ohmwright/document/digest.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/record_values.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::course {

namespace {

// Passes and memory of Argon2id: a fraction of a second on a school's computer, and costly for whoever tries many
// (the library's own figures for interactive use, one pass more).
constexpr unsigned long long argon_passes = 3;
constexpr std::size_t argon_memory = std::size_t{64} << 20U;
constexpr std::size_t sealed_block = 4096;

const unsigned char* bytes_of(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }

void start_library() {
  if (sodium_init() < 0) throw Error(ErrorCategory::internal, "libsodium cannot be started: no random numbers here");
}

std::vector<unsigned char> bytes_in(const std::string& hexadecimal_text) {
  std::vector<unsigned char> bytes(hexadecimal_text.size() / 2);
  std::size_t length = 0;
  if (sodium_hex2bin(bytes.data(), bytes.size(), hexadecimal_text.data(), hexadecimal_text.size(), nullptr, &length,
                     nullptr) != 0)
    return {};
  bytes.resize(length);
  return bytes;
}

void stretch(std::string_view passphrase, std::span<const unsigned char> salt, SecretKey& key) {
  if (crypto_pwhash(key.data(), SecretKey::size, passphrase.data(), passphrase.size(), salt.data(), argon_passes,
                    argon_memory, crypto_pwhash_ALG_ARGON2ID13) != 0)
    throw Error(ErrorCategory::input, "not enough memory to use the passphrase: 64 MiB are needed");
}

}  // namespace

SecretKey::~SecretKey() { sodium_memzero(bytes_.data(), bytes_.size()); }

void DrawStream::refill() {
  std::array<unsigned char, crypto_stream_chacha20_ietf_NONCEBYTES> nonce{};
  for (std::size_t i = 0; i < sizeof counter_; ++i) nonce[i] = static_cast<unsigned char>(counter_ >> (8U * i));
  crypto_stream_chacha20_ietf(block_.data(), block_.size(), nonce.data(), key_.data());
  ++counter_;
  next_ = 0;
}

double DrawStream::uniform() {
  if (next_ == block_.size()) refill();
  std::uint64_t bits = 0;
  for (unsigned i = 0; i < 8; ++i) bits |= std::uint64_t{block_[next_ + i]} << (8U * i);
  next_ += 8;
  constexpr double unit = 1.0 / 9007199254740992.0;  // 2⁻⁵³
  return static_cast<double>(bits >> 11U) * unit;
}

CourseSecret::CourseSecret(std::string_view passphrase, std::string_view made_of) {
  start_library();
  if (passphrase.size() < least_passphrase)
    throw InputError("the passphrase is too short: students may try many; take at least 8 letters, better four words");
  crypto_generichash(salt_.data(), salt_.size(), bytes_of(made_of), made_of.size(), nullptr, 0);
  stretch(passphrase, salt_, master_);
}

SecretKey CourseSecret::derived(std::string_view use, std::string_view of) const {
  SecretKey key;
  const std::string text = std::string(use) + '\0' + std::string(of);
  crypto_generichash(key.data(), SecretKey::size, bytes_of(text), text.size(), master_.data(), SecretKey::size);
  return key;
}

DrawStream CourseSecret::draws(std::string_view use, std::uint64_t index) const {
  return DrawStream(derived(use, std::to_string(index)));
}

std::string CourseSecret::name(std::uint64_t index) const {
  const SecretKey key = derived("name", std::to_string(index));
  return in_hexadecimal({key.data(), 5});
}

std::string CourseSecret::seal(std::string_view text) const {
  std::vector<unsigned char> padded(text.begin(), text.end());
  std::size_t length = padded.size();
  padded.resize(length + sealed_block);
  sodium_pad(&length, padded.data(), text.size(), sealed_block, padded.size());
  padded.resize(length);
  const SecretKey nonce = derived("nonce", text);
  const SecretKey key = derived("seal", "");
  std::vector<unsigned char> sealed(padded.size() + crypto_secretbox_MACBYTES);
  crypto_secretbox_easy(sealed.data(), padded.data(), padded.size(), nonce.data(), key.data());
  std::string base64(sodium_base64_encoded_len(sealed.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(base64.data(), base64.size(), sealed.data(), sealed.size(), sodium_base64_VARIANT_ORIGINAL);
  base64.pop_back();
  nlohmann::ordered_json file;
  file["course_key"] = 1;
  file["salt"] = in_hexadecimal(salt_);
  file["nonce"] = in_hexadecimal({nonce.data(), crypto_secretbox_NONCEBYTES});
  nlohmann::ordered_json lines = nlohmann::ordered_json::array();
  constexpr std::size_t line = 96;
  for (std::size_t at = 0; at < base64.size(); at += line) lines.push_back(base64.substr(at, line));
  file["sealed"] = std::move(lines);
  return file.dump(1) + "\n";
}

std::string opened(std::string_view sealed, std::string_view passphrase, const std::string& file) {
  start_library();
  DocumentLimits limits;
  limits.values = 2'000'000;
  limits.bytes = std::size_t{256} << 20U;
  const Document document = parse_document(sealed, file, limits);
  const RecordReader read(file);
  std::string base64;
  for (const ValueNode& line : read.list(read.field(document.root, "sealed"))) base64 += read.text(line);
  std::vector<unsigned char> box(base64.size());
  std::size_t length = 0;
  const bool is_base64 = sodium_base642bin(box.data(), box.size(), base64.data(), base64.size(), nullptr, &length,
                                           nullptr, sodium_base64_VARIANT_ORIGINAL) == 0;
  box.resize(length);
  const std::vector<unsigned char> salt = bytes_in(read.text(read.field(document.root, "salt")));
  const std::vector<unsigned char> nonce = bytes_in(read.text(read.field(document.root, "nonce")));
  CourseSecret secret;
  if (!is_base64 || salt.size() != secret.salt_.size() || nonce.size() != crypto_secretbox_NONCEBYTES ||
      box.size() < crypto_secretbox_MACBYTES)
    throw InputError(ohmwright::quoted(file) + " is no key of a course: it was cut or changed; take the file that " +
                     "course make wrote");
  std::copy(salt.begin(), salt.end(), secret.salt_.begin());
  stretch(passphrase, secret.salt_, secret.master_);
  std::vector<unsigned char> text(box.size() - crypto_secretbox_MACBYTES);
  const SecretKey key = secret.derived("seal", "");
  if (crypto_secretbox_open_easy(text.data(), box.data(), box.size(), nonce.data(), key.data()) != 0)
    throw InputError(
        "the key " + ohmwright::quoted(file) +
        " does not open: another passphrase, or the file was changed; try the passphrase it was made with");
  std::size_t unpadded = 0;
  if (sodium_unpad(&unpadded, text.data(), text.size(), sealed_block) != 0) unpadded = 0;
  return {text.begin(), text.begin() + static_cast<std::ptrdiff_t>(unpadded)};
}

std::string random_word() {
  start_library();
  std::array<unsigned char, 4> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  return in_hexadecimal(bytes);
}

std::string sha256_text(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), bytes_of(bytes), bytes.size());
  return in_hexadecimal(hash);
}

}  // namespace ohmwright::course
