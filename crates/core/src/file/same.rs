//! Words of a file that are the model's own today.

/// Enums of a version of the file, each with the words of the model's enum of that name. They are the file's own: what is
/// renamed in the model is no longer the same, and says so when it is compiled.
macro_rules! same {
    ($model:ident; $($(#[$of:meta])* $name:ident: $($(#[$is:meta])* $word:ident $text:literal),+;)+) => {$(
        $(#[$of])*
        #[derive(Clone, Copy, PartialEq)]
        pub enum $name {
            $($(#[$is])* $word,)+
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.serialize_str(match self {
                    $(Self::$word => $text,)+
                })
            }
        }

        // By way of a text: what is derived has a visitor and an error of its own for every enum, a kilobyte each.
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                match &*<String as serde::Deserialize>::deserialize(d)? {
                    $($text => Ok(Self::$word),)+
                    other => Err(serde::de::Error::unknown_variant(other, &[$($text),+])),
                }
            }
        }

        impl From<$model::$name> for $name {
            fn from(model: $model::$name) -> Self {
                match model {
                    $($model::$name::$word => Self::$word,)+
                }
            }
        }

        impl From<$name> for $model::$name {
            fn from(file: $name) -> Self {
                match file {
                    $($name::$word => Self::$word,)+
                }
            }
        }
    )+};
}
