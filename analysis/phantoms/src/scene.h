// The scene that a recipe describes: what owns the memory behind a SceneView.
#pragma once

#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// Voxels and fields of one slice; its views last as long as this object.
struct SliceBody {
    std::vector<PlanePoint> outline;
    PlaneFieldGrid fields;
    FoamVolume volume;
};

[[nodiscard]] SliceBody slice_body(const PhantomRecipe& recipe, const SliceRecipe& slice,
                                   int threads);

class Scene {
  public:
    Scene(const PhantomRecipe& recipe, const std::vector<SliceBody>& bodies);
    // Lasts as long as this object and the bodies.
    [[nodiscard]] SceneView view() const;

  private:
    void scatter_morsels(const PhantomRecipe& recipe);
    void add_things(const PhantomRecipe& recipe);
    std::vector<SliceView> slices_;
    std::vector<Solid> solids_;
    std::vector<Clump> clumps_;
    SceneView scene_;
};

}  // namespace loafmark::phantoms
