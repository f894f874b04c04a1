#pragma once

#include <memory>
#include <type_traits>
#include <utility>

namespace ohmwright {

template <typename Signature>
class FunctionRef;

/// Refers to a callable without owning or allocating: for a model handed down into a numeric routine and forgotten
/// there.
///
/// Must not outlive what it refers to: take it as a parameter, never keep it as a member of something that stays.
template <typename Result, typename... Arguments>
class FunctionRef<Result(Arguments...)> {
  union Target {
    const void* object;
    void (*function)();
  };

 public:
  template <typename Callable, typename = std::enable_if_t<!std::is_same_v<std::decay_t<Callable>, FunctionRef> &&
                                                           std::is_invocable_r_v<Result, Callable&, Arguments...>>>
  FunctionRef(Callable&& callable) {  // NOLINT: implicit and forwarding, so that a lambda can be passed as it stands
    using Bare = std::remove_reference_t<Callable>;
    if constexpr (std::is_function_v<Bare>) {
      target_.function = reinterpret_cast<void (*)()>(std::addressof(callable));
      call_ = [](Target target, Arguments... arguments) -> Result {
        return reinterpret_cast<Bare*>(target.function)(std::forward<Arguments>(arguments)...);
      };
    } else {
      target_.object = std::addressof(callable);
      call_ = [](Target target, Arguments... arguments) -> Result {
        return (*const_cast<Bare*>(static_cast<const Bare*>(target.object)))(std::forward<Arguments>(arguments)...);
      };
    }
  }

  Result operator()(Arguments... arguments) const { return call_(target_, std::forward<Arguments>(arguments)...); }

 private:
  Target target_;
  Result (*call_)(Target, Arguments...);
};

}  // namespace ohmwright
