// Values leave and enter the phone as files: a job archive by Python, or the bare log where Python is not up.

import { say } from "./words.js";

export class Carry {
  constructor(page) {
    this.page = page;
  }

  // One tap: the job on the screen, else the one with most that is nowhere else.
  async save() {
    const { page } = this;
    if (!page.log) return;
    const { byJob } = page.counts;
    const open = [...byJob].sort((a, b) => b[1] - a[1]).map(([job]) => job);
    const job = page.screen.job() || open[0] || (await page.log.jobs())[0];
    if (!job) return page.strip.say("copy", say("copy-none"));
    try {
      const { file, until } = page.stage === "ready" ? await this.archive(job) : await this.bare(job);
      await hand(file);
      await page.log.copied(job, until);
      page.strip.say("copy", say("copied", { name: file.name }));
    } catch (error) {
      if (error.name === "AbortError") return; // the person closed the phone's own sheet
      page.strip.say("copy", say("fault-page", { trouble: error.message }));
    }
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
    try {
      const content = await file.arrayBuffer();
      const found = await page.engine.ask({ do: "opened", content, name: file.name });
      if (found.problems) return page.strip.say("copy", found.problems.slice(0, 3).join(" "));
      for (const name of found.photos) {
        await page.log.addPhoto(found.job, name, await page.engine.ask({ do: "photoOf", content, name }));
      }
      const count = await page.log.keep(found.job, found.lines, { copied: 1 });
      await page.engine.restart("a file was taken in");
      page.strip.say("copy", say("took-in", count) + (count.other ? ` ${say("took-in-other", count)}` : ""));
      location.hash = `#/job/${found.job}`;
      page.afterKeeping(found.job);
    } catch (error) {
      page.trouble(error);
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
