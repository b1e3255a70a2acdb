/** What each button does, by its data-act, and what is shown of the stage's state. */

const SPEEDS = { full: 1, half: 0.5, quarter: 0.25 };

const ACTS = {
  play: stage => stage.toggle(),
  back: stage => stage.step(-1),
  on: stage => stage.step(1),
  hit: stage => {
    stage.playing = false;
    stage.goTo(0);
  },
  loop: stage => {
    stage.loops = !stage.loops;
    stage.tell();
  },
  full: stage => stage.setSpeed(SPEEDS.full),
  half: stage => stage.setSpeed(SPEEDS.half),
  quarter: stage => stage.setSpeed(SPEEDS.quarter),
  mirror: (stage, clip) => {
    clip.figure.classList.toggle("mirrored");
    stage.tell();
  },
  earlier: (stage, clip) => moveHit(clip, -HIT_STEP),
  later: (stage, clip) => moveHit(clip, HIT_STEP),
};

/** Keys for the whole stage; ` ` is the space bar. */
const STAGE_KEYS = {
  " ": "play", p: "play", ArrowLeft: "back", ArrowRight: "on", h: "hit", l: "loop",
  1: "full", 2: "half", 4: "quarter",
};

/** Keys for one video: which one, and what. With Shift the hit is moved in the whole film. */
const CLIP_KEYS = {
  d: [0, "earlier"], f: [0, "later"], j: [1, "earlier"], k: [1, "later"],
  m: [0, "mirror"], n: [1, "mirror"],
};

const stages = Array.from(document.querySelectorAll(".stage"), element => new Stage(element));
const keysBox = document.querySelector("[data-act=keys]");

/** Where the stage is, in words. */
function placeWords(place) {
  const tenths = Math.round(Math.abs(place) * 100) / 100;
  if (tenths === 0) {
    return "at the hit";
  }
  return `${tenths.toFixed(2)} s ${place < 0 ? "before" : "after"} the hit`;
}

/** Show a stage's state on its buttons. */
function draw(stage) {
  const find = act => stage.element.querySelectorAll(`[data-act=${act}]`);
  const press = (act, pressed) => find(act).forEach(button => {
    button.setAttribute("aria-pressed", String(pressed));
  });
  find("play").forEach(button => { button.textContent = stage.playing ? "Pause" : "Play"; });
  press("loop", stage.loops);
  Object.keys(SPEEDS).forEach(name => press(name, stage.speed === SPEEDS[name]));
  for (const clip of stage.clips) {
    const button = clip.button("mirror");
    if (button) {
      button.setAttribute("aria-pressed", String(clip.figure.classList.contains("mirrored")));
    }
  }
  stage.element.querySelectorAll(".controls").forEach(controls => {
    controls.hidden = stage.shown.length === 0;
  });
  const words = placeWords(stage.place);
  stage.element.querySelectorAll(".place").forEach(place => { place.textContent = words; });
  find("place").forEach(slider => {
    slider.min = Math.round(stage.from * 1000);
    slider.max = Math.round(stage.to * 1000);
    slider.value = Math.round(stage.place * 1000);
    slider.setAttribute("aria-valuetext", words);
  });
}

/** The stage that keys go to: the one in use while it is in view, else the one in the middle. */
function keyStage() {
  const middle = window.innerHeight / 2;
  const box = stage => stage.element.getBoundingClientRect();
  const isInView = stage => box(stage).bottom > 0 && box(stage).top < window.innerHeight;
  const distance = stage => Math.max(box(stage).top - middle, middle - box(stage).bottom, 0);
  const inUse = stages.find(stage => stage.element.contains(document.activeElement));
  if (inUse && isInView(inUse)) {
    return inUse;
  }
  return stages.slice().sort((one, other) => distance(one) - distance(other))[0];
}

/** Carry out a key; whether it was one of ours. */
function takeKey(key, shift, stage) {
  if (STAGE_KEYS[key]) {
    ACTS[STAGE_KEYS[key]](stage);
    return true;
  }
  const [index, act] = CLIP_KEYS[key.toLowerCase()] || [];
  const clip = stage.clips[index];
  if (!clip || clip.fails || !clip.button(act)) {
    return false;
  }
  if (shift && act !== "mirror") {
    moveHitsOfFilm(clip, act === "later" ? HIT_STEP : -HIT_STEP);
  } else {
    ACTS[act](stage, clip);
  }
  return true;
}

for (const stage of stages) {
  draw(stage);
  stage.element.addEventListener("stagechange", () => draw(stage));
  stage.element.addEventListener("click", event => {
    const button = event.target.closest("button[data-act]");
    if (button) {
      const panel = button.closest(".panel");
      const isOf = clip => panel !== null && (clip.panel === panel || clip.hitPanel === panel);
      ACTS[button.dataset.act](stage, stage.clips.find(isOf));
    }
  });
  stage.element.querySelectorAll("[data-act=place]").forEach(slider => {
    slider.addEventListener("input", () => {
      stage.playing = false;
      stage.goTo(Number(slider.value) / 1000);
    });
  });
}

document.addEventListener("keydown", event => {
  const target = event.target;
  const isTyping = target.matches("input:not([type=range]), textarea, select");
  const isPressed = event.key === " " && target.matches("button, summary, input");
  if (event.ctrlKey || event.altKey || event.metaKey || isTyping || isPressed) {
    return;
  }
  const stage = keyStage();
  if (stage && !(keysBox && !keysBox.checked) && takeKey(event.key, event.shiftKey, stage)) {
    event.preventDefault();
  }
});

document.addEventListener("visibilitychange", () => {
  stages.filter(stage => document.hidden && stage.playing).forEach(stage => stage.pause());
});
