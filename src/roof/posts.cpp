#include "posts.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "bay.hpp"

namespace stakewright::roof {

void add_posts(Carry& carry, const Roof& roof, const std::vector<std::string>& labels,
               const std::optional<Footings>& footings, const Judge& judge) {
  const double planned = roof.spec.post_height_m;
  if (planned <= 0.0) return;
  std::size_t highest = 0;
  if (footings) {
    assert(footings->height_m.size() == labels.size());
    highest = static_cast<std::size_t>(
        std::max_element(footings->height_m.begin(), footings->height_m.end()) -
        footings->height_m.begin());
  }
  for (std::size_t i = 0; i < labels.size(); ++i) {
    Part post = named(PartKind::post, labels[i]);
    post.line.planned = planned;
    if (footings) {
      const auto& c = footings->covariance;
      post.line =
          judge.figure(planned, planned + footings->height_m[highest] - footings->height_m[i],
                       c(i, i) + c(highest, highest) - 2.0 * c(i, highest));
      post.fit = judge.fit(post.line, 1.0);
    }
    post.overall_m = post.stick_m = line_to_cut_m(post);
    carry.parts.push_back(std::move(post));
  }
}

}  // namespace stakewright::roof
