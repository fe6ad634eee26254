//! The steps that put a piece of a page together: see [`crate::wire`].

/// The steps so far.
#[derive(Default)]
pub struct Steps(String);

impl Steps {
    /// All of them.
    pub fn written(self) -> String {
        self.0
    }

    /// One step.
    pub fn step(&mut self, sign: char, text: &str) {
        self.0.push(sign);
        // A step ends with its line.
        self.0.extend(
            text.chars()
                .map(|c| if c == '\n' || c == '\r' { ' ' } else { c }),
        );
        self.0.push('\n');
    }

    /// An element with what is in it.
    pub fn element(
        &mut self,
        name: &str,
        attributes: &[(&str, &str)],
        content: impl FnOnce(&mut Self),
    ) {
        self.step('<', name);
        for (name, value) in attributes {
            self.step('=', &format!("{name} {value}"));
        }
        content(self);
        self.step('>', "");
    }

    /// Nothing, in the place of what is there at other times: what stands beside
    /// it is then known again by its place, and a control keeps its caret.
    pub fn nothing(&mut self) {
        self.step('.', "");
    }

    /// Steps that were written before.
    pub fn raw(&mut self, steps: &str) {
        self.0.push_str(steps);
    }

    /// A text.
    pub fn text(&mut self, text: &str) {
        self.step('"', text);
    }

    /// An element that holds a text.
    pub fn holding(&mut self, name: &str, attributes: &[(&str, &str)], text: &str) {
        self.element(name, attributes, |steps| steps.text(text));
    }

    /// An element with nothing in it.
    pub fn empty(&mut self, name: &str, attributes: &[(&str, &str)]) {
        self.element(name, attributes, |_| {});
    }
}

/// A button with its text.
pub fn button(steps: &mut Steps, attributes: &[(&str, &str)], text: &str) {
    steps.element("button", attributes, |steps| {
        steps.step('=', "type button");
        steps.text(text);
    });
}
