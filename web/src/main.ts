import { mount } from "svelte";
import "./ui/tokens.css";
import "./ui/fields.css";
import "./ui/lists.css";
import "./ui/page.css";
import Page from "./views/Page.svelte";

const target = document.getElementById("page");
if (target) mount(Page, { target });
