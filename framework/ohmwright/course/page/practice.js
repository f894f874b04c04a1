"use strict";
// The bench in a page. It does what framework/ohmwright/course/practice.cpp does, so that a record made here is the one
// that the program would have made; the program does every entry again when it marks.

const exercise = JSON.parse(document.getElementById("exercise").textContent);
const words = JSON.parse(document.getElementById("words").textContent);
const exerciseHash = document.getElementById("exercise").dataset.hash;
const byId = (id) => document.getElementById(id);
/** What stands in a field, without the control characters that a word processor pastes along. */
const typed = (id) => byId(id).value.replace(/[\x00-\x08\x0b-\x1f\x7f]/g, " ").trim();

// ---- SHA-256 (FIPS 180-4); a page from a file may have no crypto of its own ----

function primes(count) {
  const found = [];
  for (let n = 2; found.length < count; ++n) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}

function firstBits(x) {
  return Math.floor((x - Math.floor(x)) * 4294967296) >>> 0;
}

const roundConstants = primes(64).map((p) => firstBits(Math.cbrt(p)));

function sha256(text) {
  const bytes = Array.from(new TextEncoder().encode(text));
  const bits = bytes.length * 8;
  bytes.push(0x80);
  while (bytes.length % 64 !== 56) bytes.push(0);
  for (let i = 7; i >= 0; --i) bytes.push(Math.floor(bits / 2 ** (8 * i)) & 0xff);
  const hash = primes(8).map((p) => firstBits(Math.sqrt(p)));
  const turned = (x, n) => (x >>> n) | (x << (32 - n));
  for (let at = 0; at < bytes.length; at += 64) {
    const w = [];
    for (let i = 0; i < 16; ++i)
      w.push((bytes[at + 4 * i] << 24) | (bytes[at + 4 * i + 1] << 16) | (bytes[at + 4 * i + 2] << 8) | bytes[at + 4 * i + 3]);
    for (let i = 16; i < 64; ++i) {
      const s0 = turned(w[i - 15], 7) ^ turned(w[i - 15], 18) ^ (w[i - 15] >>> 3);
      const s1 = turned(w[i - 2], 17) ^ turned(w[i - 2], 19) ^ (w[i - 2] >>> 10);
      w.push((w[i - 16] + s0 + w[i - 7] + s1) | 0);
    }
    let [a, b, c, d, e, f, g, h] = hash;
    for (let i = 0; i < 64; ++i) {
      const t1 = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + roundConstants[i] + w[i]) | 0;
      const t2 = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((x, i) => { hash[i] = (hash[i] + x) | 0; });
  }
  return hash.map((x) => (x >>> 0).toString(16).padStart(8, "0")).join("");
}

// ---- the meter ----

function prefixOf(range, measure) {
  const end = range.full_scale;
  if (measure === "volts") return end < 1 ? [1e-3, "mV"] : [1, "V"];
  if (measure === "amperes") return end < 1e-3 ? [1e-6, "uA"] : end < 1 ? [1e-3, "mA"] : [1, "A"];
  return end < 1e3 ? [1, "ohm"] : end < 1e6 ? [1e3, "kohm"] : [1e6, "Mohm"];
}

function rangeName(range, measure) {
  const [factor, unit] = prefixOf(range, measure);
  return Number((range.full_scale / factor).toPrecision(6)) + " " + unit;
}

function shownOn(measure, rangeWanted, value) {
  const ranges = exercise.meter[measure];
  if (value === null || ranges.length === 0) return "OL";
  const own = rangeWanted === "auto";
  const range = own
    ? ranges.find((one) => one.full_scale >= value) || ranges[ranges.length - 1]
    : ranges.find((one) => rangeName(one, measure) === rangeWanted);
  if (!range || (!own && value > range.full_scale)) return "OL";
  const [factor, unit] = prefixOf(range, measure);
  const counts = Math.round(value / range.resolution);
  const decimals = Math.max(0, Math.ceil(-Math.log10(range.resolution / factor) - 1e-9));
  return ((counts * range.resolution) / factor).toFixed(decimals) + " " + unit;
}

// ---- the bench ----

const onTable = exercise.on_the_table;
const state = { live: !onTable, proved: onTable, covers: new Set(), setUp: "", stopped: false, answered: false, minutes: 0, times: new Map() };
let record = "";
let lastHash = "";
let entries = 0;

const named = (rows, id) => rows.find((row) => row.id === id);

function coversToTakeOff(point, setUp) {
  const order = [];
  const add = (id) => {
    if (state.covers.has(id) || order.includes(id)) return;
    named(exercise.covers, id).behind.forEach(add);
    order.push(id);
  };
  point.behind.forEach(add);
  if (setUp && state.setUp !== setUp.id) setUp.behind.forEach(add);
  return order;
}

function workMinutes(point, setUp) {
  let minutes = point.minutes;
  for (const id of coversToTakeOff(point, setUp)) minutes += named(exercise.covers, id).minutes;
  if (state.setUp === (setUp ? setUp.id : "")) return minutes;
  if (setUp) minutes += setUp.minutes;
  if (state.setUp) minutes += named(exercise.set_ups, state.setUp).minutes;
  return minutes;
}

function valueAt(point, setUp, leads) {
  const row = exercise.readings.find(
    (one) => one.set_up === (setUp ? setUp.id : "") && one.test_point === point.id && (one.leads === "in") === (leads === "in"));
  if (!row) throw new Error(words.not_here);
  const key = row.set_up + "@" + row.test_point + "@" + row.leads;
  const time = state.times.get(key) || 0;
  state.times.set(key, time + 1);
  const cells = row.shown.trim().split(/ +/);
  const cell = cells[time % cells.length];
  return cell === "OL" ? null : Number(cell);
}

function measure(wish) {
  const point = named(exercise.test_points, wish.subject);
  const setUp = wish.set_up ? named(exercise.set_ups, wish.set_up) : null;
  const ohms = point.measure === "ohms";
  if (point.lifts_leads && wish.leads !== "off" && wish.leads !== "in") throw new Error(words.choose_leads);
  if (!point.lifts_leads) delete wish.leads;
  if (setUp && setUp.live && !state.live && !ohms) throw new Error(words.needs_supply);
  if (!ohms && state.live && !wish.live_agreed) throw new Error(words.agree_live);
  const hazards = [];
  if (state.live && (wish.leads === "off" || coversToTakeOff(point, setUp).length > 0)) hazards.push("opened-while-live");
  if (!state.live && !state.proved) hazards.push("not-proved-dead");
  wish.minutes = workMinutes(point, setUp);
  if (ohms && (state.live || (setUp && setUp.live))) {
    wish.hazards = ["ohms-on-live"];
    state.stopped = true;
    return;
  }
  const value = !ohms && !state.live ? 0 : valueAt(point, setUp, wish.leads);
  wish.shown = shownOn(point.measure, wish.range, value);
  if (hazards.length > 0) wish.hazards = hazards;
  coversToTakeOff(point, setUp).forEach((id) => state.covers.add(id));
  state.setUp = setUp ? setUp.id : "";
}

function perform(wish) {
  if (state.stopped && !["answer", "note", "start"].includes(wish.do)) throw new Error(words.was_stopped);
  if (state.answered) throw new Error(words.was_answered);
  wish.minutes = 0;
  if (wish.do === "measure") {
    measure(wish);
  } else if (wish.do === "unplug") {
    wish.minutes = state.live ? 1 : 0;
    state.live = false;
    if (state.setUp && named(exercise.set_ups, state.setUp).live) state.setUp = "";
  } else if (wish.do === "prove-dead") {
    wish.minutes = 2;
    state.proved = !state.live;
    wish.shown = state.proved ? "dead" : "LIVE";
  } else if (wish.do === "plug-in") {
    if (onTable) throw new Error(words.not_here);
    wish.minutes = state.live ? 0 : 2;
    state.live = true;
    state.proved = false;
  } else if (wish.do === "look") {
    wish.minutes = 1;
    wish.shown = named(exercise.looks, wish.subject).seen.trim();
  } else if (wish.do === "answer") {
    state.answered = true;
  }
  state.minutes += wish.minutes;
  const text = JSON.stringify(wish);
  lastHash = sha256(lastHash + text);
  record += '{"entry":' + text + ',"hash":"' + lastHash + '"}\n';
  keep();
  show(entries, wish);
  ++entries;
}

/// What a student reads out at a stop and at the answer: the record that is handed in must come to the same.
function checkWord() {
  return words.check_word.replace("{word}", lastHash.slice(0, 4) + "-" + lastHash.slice(4, 8));
}

// ---- what is seen ----

function option(select, value, text) {
  const made = document.createElement("option");
  made.value = value;
  made.textContent = text;
  select.append(made);
}

/// Says it where it is seen and heard, however far down the student is on a small screen: it comes into view, and
/// takes the focus from a button that can no longer be pressed.
function tell(messages) {
  const message = byId("message");
  message.textContent = messages.join("\n");
  if (messages.length === 0) return;
  message.scrollIntoView({ block: "nearest" });
  message.focus({ preventScroll: true });
}

function show(number, entry) {
  byId("record").value = record;
  byId("minutes").textContent = Math.round(state.minutes) + " min";
  byId("state").textContent = state.live ? words.plugged_in : state.proved ? words.proved_dead : words.unplugged;
  if (entry.do === "start") return;
  const line = document.createElement("li");
  line.value = number;
  let text = [entry.do, entry.subject, entry.set_up ? "@" + entry.set_up : "", entry.leads === "in" ? words.in_circuit : entry.leads === "off" ? words.lead_off : ""]
    .filter((part) => part).join(" ");
  if (entry.shown) text += ": " + (words.shown[entry.shown] || entry.shown);
  if (entry.do === "measure" || entry.do === "look") {
    const label = document.createElement("label");
    const box = document.createElement("input");
    box.type = "checkbox";
    box.name = "because";
    box.value = String(number);
    label.append(box, " " + text);
    line.append(label);
  } else {
    line.append(text);
  }
  for (const hazard of entry.hazards || []) {
    const warning = document.createElement("div");
    warning.className = "hazard";
    warning.textContent = words[hazard];
    line.append(warning);
  }
  byId("log").append(line);
  if (entry.shown && entry.do === "measure") byId("display").textContent = entry.shown;
  const messages = (entry.hazards || []).map((hazard) => words[hazard]);
  if ((entry.hazards || []).includes("ohms-on-live")) messages.push(checkWord());
  tell(messages);
  if (state.stopped || state.answered)
    for (const button of document.querySelectorAll("#bench button")) button.disabled = true;
  if (state.answered) {
    byId("give").disabled = true;
    tell([words.hand_in, checkWord()]);
  }
}

// A reload, or a battery that ends, loses nothing where the browser keeps things for a page. What it keeps belongs to
// this very file, not to its name: two files never take up each other's record.
const keptAs = "ohmwright-" + exerciseHash;

function remember(name, text) {
  try { localStorage.setItem(name, text); } catch (error) { /* then it does not */ }
}

function remembered(name) {
  try { return localStorage.getItem(name); } catch (error) { return null; /* nothing was kept */ }
}

function keep() {
  remember(keptAs, record);
}

function entriesIn(text) {
  return text.trim().split("\n").map((line) => JSON.parse(line.replace(/^\{"entry":/, "").replace(/,"hash":"[0-9a-f]{64}"\}$/, "")));
}

/// The next one at this computer begins with nothing; what was there is kept under another name.
function putAway() {
  try {
    const kept = localStorage.getItem(keptAs);
    if (kept) localStorage.setItem(keptAs + "-put-away-" + Date.now(), kept);
    localStorage.removeItem(keptAs);
    localStorage.removeItem(keptAs + "-saved");
  } catch (error) { /* nothing is kept here anyway */ }
}

function beginAnew() {
  putAway();
  location.reload();
}

function begin() {
  const drawn = crypto.getRandomValues(new Uint8Array(4));
  const session = Array.from(drawn, (byte) => byte.toString(16).padStart(2, "0")).join("");
  const begun = new Date().toISOString().replace(/\.\d+Z$/, "Z");
  perform({ do: "start", subject: exercise.exercise, file: exerciseHash, session, begun });
}

/// Whoever opens the page is asked whether the record that lies here is theirs. One that was answered and saved is
/// done with: the next student's begins.
function takeUpOrBegin() {
  const kept = remembered(keptAs);
  let done = [];
  try { done = kept ? entriesIn(kept) : []; } catch (error) { /* no record of ours */ }
  const last = done[done.length - 1];
  if (!last || (last.do === "answer" && remembered(keptAs + "-saved"))) {
    if (last) putAway();
    begin();
    return;
  }
  byId("work").hidden = true;
  byId("kept").hidden = false;
  byId("kept-text").textContent = words.kept
    .replace("{begun}", done[0].begun ? new Date(done[0].begun).toLocaleString() : "?")
    .replace("{count}", String(done.length - 1))
    .replace("{names}", (last.students || []).join("; ") || "-");
  byId("go-on").addEventListener("click", () => {
    byId("kept").hidden = true;
    byId("work").hidden = false;
    try { done.forEach(perform); } catch (error) { tell([error.message]); }
  });
}

function attempt(wish) {
  try {
    perform(wish);
  } catch (error) {
    tell([error.message]);
  }
}

function pointChanged() {
  const point = named(exercise.test_points, byId("point").value);
  byId("leads").hidden = !point.lifts_leads;
  byId("agree").hidden = point.measure === "ohms";
  const range = byId("range");
  range.replaceChildren();
  if (exercise.meter.sets_range_itself) option(range, "auto", words.range_auto);
  for (const one of exercise.meter[point.measure]) option(range, rangeName(one, point.measure), rangeName(one, point.measure));
  const ids = point.cautions.concat(...coversToTakeOff(point, null).map((id) => named(exercise.covers, id).cautions));
  byId("step-cautions").textContent = [...new Set(ids)].map((id) => exercise.cautions[id]).filter((text) => text).join(" ");
}

function setUpInWords(setUp) {
  const warmth = setUp.temperatures.map((shown) => (onTable ? "" : shown.zone + ": ") + shown.temperature).join("; ");
  return warmth ? setUp.title + " [" + warmth + "]" : setUp.title;
}

function fill() {
  byId("title").textContent = exercise.title;
  document.title = exercise.title;
  byId("complaint").textContent = exercise.complaint;
  byId("meter").textContent = exercise.meter.title;
  for (const text of Object.values(exercise.cautions)) {
    const line = document.createElement("li");
    line.textContent = text;
    byId("cautions").append(line);
  }
  for (const part of exercise.parts.filter((one) => one.plate)) {
    const line = document.createElement("li");
    line.textContent = part.title + ": " + part.plate;
    byId("plate-list").append(line);
  }
  byId("plates").hidden = !byId("plate-list").firstChild;
  for (const shown of exercise.temperatures) {
    const line = document.createElement("li");
    line.textContent = shown.zone + ": " + shown.temperature;
    byId("temperature-list").append(line);
  }
  byId("temperatures").hidden = exercise.temperatures.length === 0;
  for (const point of exercise.test_points) option(byId("point"), point.id, point.title);
  option(byId("set-up"), "", words.as_found);
  for (const setUp of exercise.set_ups) option(byId("set-up"), setUp.id, setUpInWords(setUp));
  byId("power").hidden = onTable;
  byId("look-form").hidden = exercise.looks.length === 0;
  for (const look of exercise.looks) option(byId("look"), look.id, look.title);
  for (const select of [byId("first"), byId("second")]) {
    option(select, "", select.id === "first" ? words.nothing_wrong : words.nothing_more);
    for (const part of exercise.parts)
      for (const fault of part.faults) option(select, part.id + "." + fault.id, part.title + ": " + fault.title);
  }
  pointChanged();
}

function listen() {
  byId("point").addEventListener("change", pointChanged);
  for (const id of ["anew", "anew-below"]) byId(id).addEventListener("click", beginAnew);
  for (const action of ["unplug", "prove-dead", "plug-in"]) byId(action).addEventListener("click", () => attempt({ do: action }));
  byId("measure-form").addEventListener("submit", (event) => {
    event.preventDefault();
    const wish = { do: "measure", subject: byId("point").value };
    if (byId("set-up").value) wish.set_up = byId("set-up").value;
    const leads = document.querySelector('input[name="leads"]:checked');
    if (leads) wish.leads = leads.value;
    wish.range = byId("range").value;
    if (byId("live-agreed").checked && !byId("agree").hidden) wish.live_agreed = true;
    attempt(wish);
  });
  byId("look-form").addEventListener("submit", (event) => {
    event.preventDefault();
    if (byId("look").value) attempt({ do: "look", subject: byId("look").value });
  });
  byId("note-form").addEventListener("submit", (event) => {
    event.preventDefault();
    if (typed("note")) attempt({ do: "note", subject: typed("note") });
    byId("note").value = "";
  });
  byId("answer-form").addEventListener("submit", (event) => {
    event.preventDefault();
    const percent = Number(byId("confidence").value);
    if (byId("confidence").value === "" || !(percent >= 0 && percent <= 100)) {
      tell([words.say_confidence]);
      return;
    }
    const least = 1 / (exercise.parts.length + 1) - 0.005;  // of a blind pick; see Practice::answer
    if (percent / 100 < least) {
      tell([words.too_unsure.replace("{least}", String(Math.ceil(100 * least)))]);
      return;
    }
    const wish = { do: "answer" };
    if (typed("why")) wish.subject = typed("why");
    wish.named = [...new Set([byId("first").value, byId("second").value])].filter((name) => name);
    wish.because = [...document.querySelectorAll('input[name="because"]:checked')].map((box) => Number(box.value));
    wish.confidence = percent / 100;
    wish.students = typed("who").split(";").map((one) => one.trim()).filter((one) => one);
    if (wish.students.length === 0) delete wish.students;
    attempt(wish);
  });
  byId("save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([record], { type: "application/octet-stream" }));
    link.download = exercise.exercise + "-" + entriesIn(record)[0].session + ".record";
    link.click();
    URL.revokeObjectURL(link.href);
    remember(keptAs + "-saved", "yes");
  });
}

fill();
listen();
takeUpOrBegin();
