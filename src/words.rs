//! How an enum without figures gets its words.
//!
//! For: everything that is one of a few words in a file, on a flag and on the screen. One table gives
//! the variants, their serde form, the words a person can choose from and the way back, so that none
//! of these can disagree.

/// Gives a fieldless enum its words: the serde form, `word()`, `worded()`, `ALL`, `WORDS` and
/// `Display` from one table.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
        pub enum $name {
            $($(#[$vdoc])* #[serde(rename = $word)] $variant,)+
        }

        impl $name {
            /// All of them, in the order of work.
            pub const ALL: &'static [$name] = &[$($name::$variant,)+];

            /// The words of all of them, in the same order.
            pub const WORDS: &'static [&'static str] = &[$($word,)+];

            /// The word for it in files and on the screen.
            pub const fn word(self) -> &'static str {
                match self {
                    $($name::$variant => $word,)+
                }
            }

            /// The one with this word.
            pub fn worded(word: &str) -> Option<$name> {
                $name::ALL.iter().copied().find(|one| one.word() == word)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.word())
            }
        }
    };
}
pub(crate) use words;
