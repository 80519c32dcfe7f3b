import { render } from "preact";
import { App } from "./App";

const page = document.getElementById("page");
if (page) render(<App />, page);
performance.mark("page usable");
