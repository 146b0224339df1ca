import { mount } from "svelte";
import "../src/ui/tokens.css";
import "../src/ui/page.css";
import Harness from "./Harness.svelte";
import SpeedHarness from "./SpeedHarness.svelte";

const asked = new URLSearchParams(location.search);
const theme = asked.get("theme");
if (theme) document.documentElement.dataset["theme"] = theme;
const data = await (await fetch("./data.json")).json();
const target = document.getElementById("page")!;
if (asked.get("show") === "speed") {
  // for the script that drives this page
  Object.assign(window, { harness: mount(SpeedHarness, { target, props: { data } }) });
} else {
  mount(Harness, { target, props: { data, show: asked.get("show") ?? "charts" } });
}
