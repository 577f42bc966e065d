//! What stands around the content of every page: the words of the name line and the footer, in the language of the sheet.

/// The language of texts that no translation was asked for, a BCP 47 tag.
pub const ENGLISH: &str = "en-US";

/// The words of the name line and the footer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Labels {
    /// Before the line for the name.
    pub name: String,
    /// Before the line for the date.
    pub date: String,
    /// Which page it is of how many, with `{page}` and `{pages}`.
    pub page: String,
    /// Before the seed.
    pub seed: String,
}

impl Default for Labels {
    fn default() -> Self {
        Self {
            name: "Name".to_owned(),
            date: "Date".to_owned(),
            page: "page {page} of {pages}".to_owned(),
            seed: "seed".to_owned(),
        }
    }
}

impl Labels {
    /// Which page it is of how many.
    #[must_use]
    pub fn page_of(&self, page: usize, pages: usize) -> String {
        self.page.replace("{page}", &page.to_string()).replace("{pages}", &pages.to_string())
    }
}
