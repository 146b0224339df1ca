import { mount } from "svelte";
import "../src/ui/tokens.css";
import "../src/ui/page.css";
import Harness from "./Harness.svelte";

const asked = new URLSearchParams(location.search);
const theme = asked.get("theme");
if (theme) document.documentElement.dataset["theme"] = theme;
const data = await (await fetch("./data.json")).json();
mount(Harness, { target: document.getElementById("page")!, props: { data, show: asked.get("show") ?? "charts" } });
