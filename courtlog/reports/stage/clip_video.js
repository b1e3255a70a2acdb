"use strict";

/** A tenth of a second: the step by which a hit is moved. All times here are seconds. */
const HIT_STEP = 0.1;

/** How far before its end a clip counts as over; browsers stop a little early. */
const END_TOLERANCE = 0.005;

/** The value within its limits. */
function within(value, least, most) {
  return Math.min(most, Math.max(least, value));
}

/** One video with its clip: where it begins, is hit and ends. A place counts from the hit. */
class ClipVideo {
  constructor(figure, panel, hitPanel, onChange) {
    const seconds = name => Number(figure.dataset[name]) / 1000;
    this.figure = figure;
    this.panel = panel;
    this.hitPanel = hitPanel;
    this.video = figure.querySelector("video");
    this.onChange = onChange;
    this.start = seconds("startMs");
    this.end = seconds("endMs");
    this.frame = seconds("frameMs");
    this.bookHit = seconds("hitMs");
    this.moved = 0;
    this.fails = false;
    this.finished = false;
    this.slowed = false;
    this.goal = null;
    this.asked = null;
    this.video.controls = false;
    this.video.muted = true;
    this.video.preload = "auto";
    this.listen();
  }

  listen() {
    this.video.addEventListener("loadedmetadata", () => this.takeLength());
    this.video.addEventListener("seeked", () => this.seekOn());
    this.video.addEventListener("error", () => this.fail());
    if (this.video.error) {
      this.fail();
    } else if (this.video.readyState > 0) {
      this.takeLength();
    }
  }

  /** The moment of the hit in the file, in the middle of a frame so that steps never skip one. */
  get hit() {
    const wanted = within(this.bookHit + this.moved, this.start, this.end);
    const middle = (Math.floor(wanted / this.frame + 0.001) + 0.5) * this.frame;
    return within(middle, this.start, this.end);
  }

  get from() {
    return this.start - this.hit;
  }

  get to() {
    return this.end - this.hit;
  }

  get place() {
    return this.video.currentTime - this.hit;
  }

  get isOver() {
    return this.video.ended || this.video.currentTime >= this.end - END_TOLERANCE;
  }

  get isSeeking() {
    return this.video.readyState < 1 || this.video.seeking || this.goal !== this.asked;
  }

  /** Whether it should move, but has no picture to go on with. */
  get isStalled() {
    return !this.video.paused && this.video.readyState < 3;
  }

  /** By how much the hit may be moved, so that it stays within the clip. */
  limited(moved) {
    return within(moved, this.start - this.bookHit, this.end - this.bookHit);
  }

  /** Its button for this, or none. */
  button(act) {
    const panels = [this.panel, this.hitPanel].filter(Boolean);
    return panels.map(panel => panel.querySelector(`[data-act=${act}]`)).find(Boolean) || null;
  }

  /** Show this place; a browser that is still seeking gets the latest place afterwards. */
  show(place) {
    this.finished = false;
    this.goal = within(this.hit + place, this.start, Math.max(this.start, this.end - this.frame / 2));
    if (this.video.readyState > 0 && !this.video.seeking) {
      this.seekOn();
    }
  }

  seekOn() {
    if (this.goal !== this.asked) {
      this.asked = this.goal;
      this.video.currentTime = this.goal;
    } else {
      this.onChange();
    }
  }

  /** Play at this speed. */
  run(speed) {
    this.goal = this.asked = null;
    if (this.video.playbackRate !== speed) {
      this.video.playbackRate = speed;
    }
    if (this.video.paused) {
      const started = this.video.play();
      if (started) {
        started.catch(error => error.name === "NotAllowedError" && this.onChange("refused"));
      }
    }
  }

  hold() {
    if (!this.video.paused) {
      this.video.pause();
    }
  }

  takeLength() {
    if (this.video.videoWidth === 0) {
      this.fail();
      return;
    }
    if (Number.isFinite(this.video.duration)) {
      this.end = Math.min(this.end, this.video.duration);
    }
    this.onChange("length");
  }

  /** Say that this browser cannot play it. A sound without a picture is no video either. */
  fail() {
    this.fails = true;
    this.hold();
    this.video.hidden = true;
    this.figure.classList.add("fails");
    [this.panel, this.hitPanel].filter(Boolean).forEach(panel => { panel.hidden = true; });
    this.figure.querySelector(".unplayable").hidden = false;
    this.onChange("length");
  }
}
