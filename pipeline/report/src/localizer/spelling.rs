//! Spelling of a region: words that it writes otherwise than its language does.

/// Pairs of words: as the language writes them, as the region does.
#[derive(Debug, Default)]
pub(super) struct Spelling(Vec<(String, String)>);

impl Spelling {
    /// Reads "one other, one other": the value of the sentence `spelling` of a region's file.
    pub(super) fn read(pairs: &str) -> Spelling {
        let pair = |text: &str| {
            let (from, to) = text.trim().split_once(' ')?;
            Some((from.to_owned(), to.to_owned()))
        };
        Spelling(pairs.split(',').filter_map(pair).collect())
    }

    /// Writes the sentences of a Fluent file as the region does; keys, arguments, selectors and what stands in
    /// backquotes stay.
    pub(super) fn of_file(&self, text: &str) -> String {
        if self.0.is_empty() {
            return text.to_owned();
        }
        let line = |line: &str| {
            let is_continued = line.starts_with(' ');
            let value = line.find(" = ").filter(|_| !is_continued).unwrap_or(0);
            let (head, tail) = line.split_at(value);
            head.to_owned() + &self.of_sentence(tail)
        };
        text.split_inclusive('\n').map(line).collect()
    }

    fn of_sentence(&self, text: &str) -> String {
        let mut written = String::with_capacity(text.len());
        let mut rest = text;
        while let Some(first) = rest.chars().next() {
            let is_letter = first.is_alphabetic();
            let end = rest
                .find(|c: char| c.is_alphabetic() != is_letter)
                .unwrap_or(rest.len());
            let (run, after) = rest.split_at(end);
            let is_name = written.ends_with(['$', '`', '[', '-', '_']);
            let other = self.0.iter().find(|(from, _)| from == run && !is_name);
            written += other.map_or(run, |(_, to)| to);
            rest = after;
        }
        written
    }
}

#[cfg(test)]
mod tests {
    use super::Spelling;

    #[test]
    fn words_are_written_otherwise_and_names_are_not() {
        let spelling = Spelling::read("centre center, judgement judgment, authorised authorized");
        for (text, wanted) in [
            (
                "a-centre = { $centre } of the centre\n",
                "a-centre = { $centre } of the center\n",
            ),
            (
                "judgement = judgement: `authorised` is authorised\n    [authorised] authorised.\n",
                "judgement = judgment: `authorised` is authorized\n    [authorised] authorized.\n",
            ),
        ] {
            assert_eq!(spelling.of_file(text), wanted);
            assert_eq!(Spelling::default().of_file(text), text);
        }
    }
}
