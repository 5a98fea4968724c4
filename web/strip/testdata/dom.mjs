// As much of a page as the day strip uses: elements, events and frames that come
// when they are called for.
class Element {
  constructor(name) {
    Object.assign(this, { name, attributes: {}, children: [], parent: null, style: {}, dataset: {}, handlers: {}, hidden: false, tabIndex: -1, className: "", id: "" });
    this.clientWidth = 0;
    this.clientHeight = 0;
    this.words = "";
  }
  setAttribute(name, value) {
    if (typeof value !== "string") throw new Error(`${name} of ${this.name} is no text: ${value}`);
    if (/NaN|undefined|Infinity|null/.test(value)) throw new Error(`${name} of ${this.name} is ${value}`);
    this.attributes[name] = value;
  }
  removeAttribute(name) {
    delete this.attributes[name];
  }
  append(...some) {
    for (const child of some) this.appendChild(child);
  }
  appendChild(child) {
    child.parent = this;
    this.children.push(child);
  }
  insertBefore(child, next) {
    child.parent = this;
    this.children.splice(this.children.indexOf(next), 0, child);
  }
  remove() {
    if (this.parent) this.parent.children = this.parent.children.filter((child) => child !== this);
    this.parent = null;
  }
  get lastElementChild() {
    return this.children.at(-1) ?? null;
  }
  get textContent() {
    return this.words + this.children.map((child) => child.textContent).join("");
  }
  set textContent(text) {
    this.words = text;
    this.children = [];
  }
  get offsetWidth() {
    return 7 * this.words.length;
  }
  getBoundingClientRect() {
    return { left: 0, top: 0, width: this.clientWidth, height: this.clientHeight };
  }
  setPointerCapture() {}
  addEventListener(name, run) {
    (this.handlers[name] ??= []).push(run);
  }
  // Hands an event to the element and on to those around it, and says whether its default is done.
  send(name, event = {}) {
    let stopped = false;
    let done = true;
    const whole = { button: 0, pointerId: 1, ...event, preventDefault: () => (done = false), stopPropagation: () => (stopped = true) };
    for (let e = this; e && !stopped; e = e.parent) for (const run of e.handlers[name] ?? []) run(whole);
    return done;
  }
  // All elements below with an attribute that begins with a text.
  all(attribute, begins) {
    const own = attribute === "class" ? (this.attributes.class ?? this.className) : (this.attributes[attribute] ?? "");
    return [...(own.split(" ").some((part) => part.startsWith(begins)) ? [this] : []), ...this.children.flatMap((child) => child.all(attribute, begins))];
  }
}

let frames = [];
globalThis.document = { createElement: (name) => new Element(name), createElementNS: (_, name) => new Element(name) };
globalThis.requestAnimationFrame = (run) => frames.push(run);
globalThis.cancelAnimationFrame = () => {};
globalThis.ResizeObserver = class {
  observe() {}
  disconnect() {}
};

// What waits for the next frame, and what that makes wait, is done.
export const nextFrame = () => {
  while (frames.length) {
    const now = frames;
    frames = [];
    for (const run of now) run(0);
  }
};

// An element of a size, whose first child takes all of it.
export const holder = (width, height) => {
  const div = new Element("div");
  const append = div.append.bind(div);
  div.append = (child) => {
    Object.assign(child, { clientWidth: width, clientHeight: height });
    append(child);
  };
  return div;
};
