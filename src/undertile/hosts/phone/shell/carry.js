// Values leave and enter the phone as files: a job archive by Python, or the bare log where Python is not up.

import { MOST_FILE } from "./multipart.js";
import { say } from "./words.js";

const COPY = /^\/job\/([0-9a-f]{32})\/copy$/;

export class Carry {
  constructor(page) {
    this.page = page;
  }

  // One tap: a file with all of the job on the screen, else the one with most that is nowhere else.
  async save(which = "") {
    const { page } = this;
    if (!page.log) return;
    const { byJob } = page.counts;
    const open = [...byJob].sort((a, b) => b[1] - a[1]).map(([job]) => job);
    const job = which || page.screen.job() || open[0] || (await page.log.jobs())[0];
    if (!job) return page.strip.say("copy", say("copy-none"));
    try {
      const { file, until } = page.stage === "ready" ? await this.archive(job) : await this.bare(job);
      await hand(file);
      await page.log.filed(job, { until, name: file.name });
      this.askWhere(job, file.name);
    } catch (error) {
      if (error.name === "AbortError") return; // the person closed the phone's own sheet
      page.strip.say("copy", say("fault-page", { trouble: error.message }));
    }
    await page.recount();
    page.tabs?.postMessage({ kept: job });
  }

  // A file that left the page may lie on this very phone: it counts as a copy once a person says where it is, or
  // another device has what is in it.
  askWhere(job, name) {
    const act = { words: say("elsewhere"), run: () => this.elsewhere(job) };
    this.page.strip.say("copy", say("copied", { name }), { act, first: true });
  }

  async elsewhere(job) {
    const { page } = this;
    const file = await page.log?.file(job);
    if (!file) return;
    await page.log.copied(job, file.until);
    await page.log.filed(job, null);
    page.strip.say("copy", say("elsewhere-said", { name: file.name }), { first: true });
    await page.recount();
    page.tabs?.postMessage({ kept: job });
  }

  async archive(job) {
    const { content, until, name } = await this.page.engine.ask({ do: "archive", job });
    return { file: new File([content], name, { type: "application/zip" }), until };
  }

  async bare(job) {
    const records = (await this.page.log.since(0)).filter((each) => each.job === job);
    const until = Math.max(0, ...records.map((each) => each.n));
    const text = records.map((each) => `${each.line}\n`).join("");
    return { file: new File([text], `${job}.log.jsonl`, { type: "application/json" }), until };
  }

  // A file from another phone or the laptop. Nothing of it counts before the phone has kept it.
  async takeIn(file) {
    const { page } = this;
    if (file.size > MOST_FILE) return page.strip.say("copy", say("file-larger", { most: `${MOST_FILE / 1e6} MB` }));
    try {
      const headers = { accept: "application/json", "content-type": "application/octet-stream", cookie: page.cookie() };
      const body = new Uint8Array(await file.arrayBuffer());
      const answer = await page.ask({ method: "POST", target: "/open", headers, body });
      const told = JSON.parse(new TextDecoder().decode(answer.content));
      if (told.error) return page.strip.say("copy", (told.problems || [told.error]).slice(0, 3).join(" "));
      const said = [say("took-in", told), told.other ? say("took-in-other", told) : "", ...told.refused];
      page.strip.say("copy", said.filter(Boolean).join(" "));
      if (page.screen.job() === told.job) page.screen.others(told.job);
      else location.hash = `#/job/${told.job}`;
    } catch (error) {
      page.strip.say("copy", say("fault-page", { trouble: error.message }));
    }
  }

  // A file that a screen offers: a copy of a job, or anything else that Python makes.
  async fetch(target) {
    const { page } = this;
    const whole = COPY.exec(target);
    if (whole) return this.save(whole[1]);
    try {
      const { head, content } = await page.ask({ method: "GET", target, headers: { accept: "*/*", cookie: page.cookie() } });
      const name = /filename\*=UTF-8''([^;]+)/.exec(head.headers["content-disposition"] || "");
      if (head.status !== 200 || !name) throw new Error(`${target}: ${head.status}`);
      await hand(new File([content], decodeURIComponent(name[1]), { type: head.headers["content-type"] }));
    } catch (error) {
      if (error.name !== "AbortError") page.strip.say("copy", say("fault-page", { trouble: error.message }));
    }
  }
}

async function hand(file) {
  if (navigator.canShare?.({ files: [file] })) return navigator.share({ files: [file], title: file.name });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
