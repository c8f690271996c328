//! XML text of one fixed layout: an element to a line, two spaces deeper each.

/// A text as it is written.
pub(super) struct Xml {
    text: String,
    open: Vec<&'static str>,
}

/// An attribute; one without a value is left out.
pub(super) type Attribute<'a> = (&'static str, &'a str);

impl Xml {
    /// A text with its declaration alone.
    pub fn new() -> Self {
        Self {
            text: "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n".to_owned(),
            open: Vec::new(),
        }
    }

    /// Begins an element that holds others.
    pub fn open(&mut self, name: &'static str, attributes: &[Attribute<'_>]) {
        self.begin(name, attributes);
        self.text.push_str(">\n");
        self.open.push(name);
    }

    /// Ends the element that was begun last.
    pub fn close(&mut self) {
        if let Some(name) = self.open.pop() {
            self.indent();
            self.text.push_str(&format!("</{name}>\n"));
        }
    }

    /// An element that holds a text, or nothing where that is empty.
    pub fn leaf(&mut self, name: &'static str, attributes: &[Attribute<'_>], text: &str) {
        self.begin(name, attributes);
        if text.is_empty() {
            self.text.push_str("/>\n");
            return;
        }
        let text = escaped(text);
        self.text.push_str(&format!(">{text}</{name}>\n"));
    }

    /// The whole text.
    pub fn finished(mut self) -> String {
        while !self.open.is_empty() {
            self.close();
        }
        self.text
    }

    fn begin(&mut self, name: &str, attributes: &[Attribute<'_>]) {
        self.indent();
        self.text.push('<');
        self.text.push_str(name);
        for (name, value) in attributes.iter().filter(|(_, value)| !value.is_empty()) {
            let value = escaped(value);
            self.text.push_str(&format!(" {name}=\"{value}\""));
        }
    }

    fn indent(&mut self) {
        self.text.push_str(&"  ".repeat(self.open.len()));
    }
}

/// A text that stands in an element or an attribute. Characters that XML 1.0 does not have, and breaks
/// of lines, become spaces.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_of_the_form_are_escaped_and_nothing_stays_open() {
        let mut xml = Xml::new();
        xml.open("A", &[("name", "a \"b\" & <c>\n\u{1}"), ("desc", "")]);
        xml.leaf("B", &[], "1 < 2");
        xml.leaf("C", &[], "");
        assert_eq!(
            xml.finished(),
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
             <A name=\"a &quot;b&quot; &amp; &lt;c&gt;  \">\n  <B>1 &lt; 2</B>\n  <C/>\n</A>\n"
        );
    }
}
