/**
 * A stage plays its videos together, each at the same place relative to its own hit.
 *
 * What a page must hold (stage_html.py writes all of it):
 *   .stage                  one for each set of videos, with one video or more
 *     figure.clip           one for each video, with data-start-ms, data-hit-ms, data-end-ms and
 *                           data-frame-ms; in it a <video> and a hidden .unplayable sentence
 *     [data-act=NAME]       buttons: see ACTS in controls.js; each is optional
 *     .place                optional: where the stage is, in words
 *     .controls             hidden until the script runs
 * Where hits can be moved, see hit_moves.js as well.
 *
 * data-state of a stage is "still", "playing" or "waiting" (a video has no picture to go on with).
 */

/** How far a video may be ahead before it waits for the others, and when it goes on. */
const FAR_AHEAD = 0.15;
const NEAR_AGAIN = 0.03;

/** How far it may be ahead before it plays slower, and when it plays as fast again. */
const AHEAD = 0.015;
const TOGETHER = 0.004;
const SLOWER = 0.85;

class Stage {
  constructor(element) {
    this.element = element;
    this.place = 0;
    this.speed = 1;
    this.loops = false;
    this.playing = false;
    const panels = element.querySelectorAll(".panel:not(.hit)");
    const hits = element.querySelectorAll(".panel.hit");
    this.clips = Array.from(element.querySelectorAll("figure.clip"), (figure, index) => {
      const tell = what => this.clips && this.take(what);
      return new ClipVideo(figure, panels[index] || null, hits[index] || null, tell);
    });
    this.frame = Math.max(...this.clips.map(clip => clip.frame));
    this.goTo(0);
    for (const clip of this.clips) {
      clip.video.addEventListener("timeupdate", () => this.playing && this.keepTogether());
      clip.video.addEventListener("click", () => this.toggle());
    }
  }

  /** The clips that this browser can play. */
  get shown() {
    return this.clips.filter(clip => !clip.fails);
  }

  get from() {
    return Math.min(0, ...this.shown.map(clip => clip.from));
  }

  get to() {
    return Math.max(0, ...this.shown.map(clip => clip.to));
  }

  /** Take in what a clip tells: a new length, a refusal to play, or that a place is shown. */
  take(what) {
    if (what === "refused") {
      this.pause();
    } else if (what === "length" && !this.playing) {
      this.goTo(this.place);
    }
    this.tell();
  }

  toggle() {
    if (this.playing) {
      this.pause();
    } else {
      this.play();
    }
  }

  /** Play from here; from the hit, or from the end, the whole clip. */
  play() {
    if (this.playing || this.shown.length === 0) {
      return;
    }
    const atHit = Math.abs(this.place) < this.frame / 2;
    if (atHit || this.place >= this.to - this.frame) {
      this.goTo(this.from);
    }
    this.playing = true;
    this.tick();
  }

  /** Stand still, all at the same place. */
  pause() {
    this.playing = false;
    this.goTo(this.place);
  }

  /** Show this place in every video. */
  goTo(place) {
    this.place = within(place, this.from, this.to);
    for (const clip of this.clips) {
      clip.hold();
      clip.show(this.place);
    }
    this.tell();
  }

  /** Go so many frames on, or back. */
  step(frames) {
    this.playing = false;
    this.goTo((Math.round(this.place / this.frame) + frames) * this.frame);
  }

  setSpeed(speed) {
    this.speed = speed;
    this.tell();
  }

  tick() {
    if (this.playing) {
      this.keepTogether();
      requestAnimationFrame(() => this.tick());
    }
  }

  /** The video that is behind leads; one that is ahead plays slower, or waits for it. */
  keepTogether() {
    const clips = this.shown;
    for (const clip of clips) {
      clip.finished = clip.finished || (!clip.isSeeking && clip.isOver);
    }
    const running = clips.filter(clip => !clip.finished && clip.from <= this.place + END_TOLERANCE);
    clips.filter(clip => !running.includes(clip)).forEach(clip => clip.hold());
    if (running.length === 0) {
      this.end();
      return;
    }
    if (running.some(clip => clip.isSeeking)) {
      running.forEach(clip => clip.hold());
      this.tell("waiting");
      return;
    }
    this.place = Math.min(...running.map(clip => clip.place));
    const stalled = running.filter(clip => clip.isStalled);
    for (const clip of running) {
      this.pace(clip, stalled.length > 0 && !stalled.includes(clip));
    }
    this.tell(stalled.length > 0 ? "waiting" : "playing");
  }

  pace(clip, waits) {
    const ahead = clip.place - this.place;
    clip.slowed = ahead > (clip.slowed ? TOGETHER : AHEAD);
    if (waits || ahead > (clip.video.paused ? NEAR_AGAIN : FAR_AHEAD)) {
      clip.hold();
    } else {
      clip.run(this.speed * (clip.slowed ? SLOWER : 1));
    }
  }

  end() {
    if (this.loops) {
      this.goTo(this.from);
    } else {
      this.place = this.to;
      this.pause();
    }
  }

  tell(state = this.playing ? "playing" : "still") {
    this.element.dataset.state = state;
    this.element.dispatchEvent(new Event("stagechange"));
  }
}
