/**
 * Moving a hit by tenths, for one ball or for all clips of its film, and the command to keep it.
 *
 * A figure.clip whose hit may be moved holds data-film (the same for all clips of a film),
 * data-ball-moved-ms and data-film-moved-ms (what the book has moved already), data-ball-command
 * and data-film-command (what to type before the option), and data-after-command. Its .panel.hit,
 * in a <details>, holds a checkbox .whole-film, an <output> with the move in words, and a hidden
 * .keep with a <code>.
 */

/** The same moves in every clip of a film: by its data-film. */
const filmMoves = new Map();

/** Move the hit of a clip, or of all clips of its film where that is ticked. */
function moveHit(clip, seconds) {
  clip.hitPanel.closest("details").open = true;
  if (clip.hitPanel.querySelector(".whole-film").checked) {
    moveHitsOfFilm(clip, seconds);
    return;
  }
  if (canMove(clip, seconds)) {
    clip.ballMoved = (clip.ballMoved || 0) + seconds;
    showMoved(clip);
  }
}

function moveHitsOfFilm(clip, seconds) {
  clip.hitPanel.closest("details").open = true;
  if (!canMove(clip, seconds)) {
    return;
  }
  const film = clip.figure.dataset.film;
  filmMoves.set(film, (filmMoves.get(film) || 0) + seconds);
  for (const stage of stages) {
    stage.clips.filter(other => other.figure.dataset.film === film && other.hitPanel).forEach(showMoved);
  }
}

/** Whether the hit stays within the clip. */
function canMove(clip, seconds) {
  const wanted = clip.moved + seconds;
  return Math.abs(clip.limited(wanted) - wanted) < END_TOLERANCE;
}

/** Show the clip at its moved hit, say by how much, and what to type. */
function showMoved(clip) {
  const data = clip.figure.dataset;
  const ball = clip.ballMoved || 0;
  const film = filmMoves.get(data.film) || 0;
  clip.moved = clip.limited(ball + film);
  const stage = stages.find(one => one.clips.includes(clip));
  const commands = [];
  if (tenths(film) !== 0) {
    commands.push(data.filmCommand + moveWords(film + Number(data.filmMovedMs) / 1000)
      + data.afterCommand);
  }
  if (tenths(ball) !== 0) {
    commands.push(data.ballCommand + moveWords(ball + Number(data.ballMovedMs) / 1000)
      + data.afterCommand);
  }
  const moved = tenths(ball + film);
  const side = moved < 0 ? "earlier" : "later";
  clip.hitPanel.querySelector("output").textContent =
    moved === 0 ? "hit as in the book" : `hit ${Math.abs(moved).toFixed(1)} s ${side}`;
  const keep = clip.hitPanel.querySelector(".keep");
  keep.hidden = commands.length === 0;
  keep.querySelector("code").textContent = commands.join("\n");
  stage.playing = false;
  stage.goTo(stage.place);
}

/** The option of `courtlog film hit` for this move, which counts from the usual place. */
function moveWords(seconds) {
  const moved = Math.round(seconds * 1000) / 1000;
  return ` ${moved < 0 ? "--earlier" : "--later"} ${Math.abs(moved)}`;
}

/** Rounded to tenths, without a negative zero. */
function tenths(seconds) {
  return Math.round(seconds * 10) / 10 + 0;
}
