// Lighting some strands up: the rest is drawn through a veil of the background's colour.
import { Color, type IUniform, type Material, MeshStandardMaterial } from "three";

/** Colours that all materials share. */
export const veil: { ground: IUniform<Color>; glow: IUniform<Color>; share: IUniform<number> } = {
  ground: { value: new Color("#f3ece0") },
  glow: { value: new Color("#cb5f38") },
  share: { value: 0.8 },
};

/** In the attribute `veil`: as it is, through the veil, lit up. */
export const PLAIN = 0;
export const VEILED = 1;
export const LIT = -1;

/** A copy of a material that minds the attribute `veil` of its geometry. */
export function veiled(material: Material): Material {
  if (!(material instanceof MeshStandardMaterial)) return material.clone();
  const copy = material.clone();
  copy.onBeforeCompile = (shader) => {
    Object.assign(shader.uniforms, {
      veilGround: veil.ground,
      veilGlow: veil.glow,
      veilShare: veil.share,
    });
    shader.vertexShader = shader.vertexShader
      .replace("#include <common>", "#include <common>\nattribute float veil;\nvarying float vVeil;")
      .replace("#include <begin_vertex>", "#include <begin_vertex>\nvVeil = veil;");
    shader.fragmentShader = shader.fragmentShader
      .replace(
        "#include <common>",
        "#include <common>\nvarying float vVeil;\nuniform vec3 veilGround;\nuniform vec3 veilGlow;\nuniform float veilShare;",
      )
      .replace(
        "#include <color_fragment>",
        "#include <color_fragment>\nif (vVeil < -0.5) diffuseColor.rgb = mix(diffuseColor.rgb, veilGlow, 0.86);",
      )
      .replace(
        "#include <opaque_fragment>",
        "if (vVeil > 0.5) outgoingLight = mix(outgoingLight, veilGround, veilShare);\n#include <opaque_fragment>",
      );
  };
  copy.customProgramCacheKey = () => "veiled";
  return copy;
}
