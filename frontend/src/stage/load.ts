// Reading a scene. Images are made from the file's own bytes, because the page's policy lets
// nothing be loaded from blob addresses.
import {
  LinearMipmapLinearFilter,
  type Object3D,
  RepeatWrapping,
  Texture,
} from "three";
import {
  type GLTFLoaderPlugin,
  GLTFLoader,
  type GLTFParser,
} from "three/examples/jsm/loaders/GLTFLoader.js";

interface Images {
  textures?: { source: number }[];
  images?: { name?: string; bufferView: number; mimeType: string }[];
}

/** Surfaces of cord do not change from one picture to the next: each is made once. */
const kept = new Map<string, Promise<Texture>>();

async function textureFrom(parser: GLTFParser, index: number): Promise<Texture> {
  const json = parser.json as Images;
  const source = json.textures?.[index]?.source ?? 0;
  const image = json.images?.[source];
  if (!image) throw new Error("The scene names an image that it does not hold.");
  const bytes = (await parser.getDependency("bufferView", image.bufferView)) as ArrayBuffer;
  const bitmap = await createImageBitmap(new Blob([bytes], { type: image.mimeType }), {
    colorSpaceConversion: "none",
    premultiplyAlpha: "none",
  });
  const texture = new Texture(bitmap as unknown as HTMLImageElement);
  texture.name = image.name ?? "";
  texture.flipY = false;
  texture.wrapS = texture.wrapT = RepeatWrapping;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.anisotropy = 4;
  texture.needsUpdate = true;
  return texture;
}

function withOwnImages(parser: GLTFParser): GLTFLoaderPlugin {
  return {
    name: "own images",
    loadTexture(index: number): Promise<Texture> {
      const json = parser.json as Images;
      const name = json.images?.[json.textures?.[index]?.source ?? 0]?.name ?? `image ${index}`;
      let texture = kept.get(name);
      if (!texture) {
        texture = textureFrom(parser, index);
        kept.set(name, texture);
      }
      return texture;
    },
  };
}

const loader = new GLTFLoader().register(withOwnImages);

/** What a glTF binary file holds. */
export async function readScene(bytes: ArrayBuffer): Promise<Object3D> {
  const { scene } = await loader.parseAsync(bytes, "");
  return scene;
}
