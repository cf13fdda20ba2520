//! Words of a file that are the model's own today.

/// Enums of a version of the file, each with the words of the model's enum of that name. They are the file's own: what is
/// renamed in the model is no longer the same, and says so when it is compiled.
macro_rules! same {
    ($model:ident; $($(#[$of:meta])* $name:ident: $($(#[$is:meta])* $word:ident),+;)+) => {$(
        $(#[$of])*
        #[derive(Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name {
            $($(#[$is])* $word,)+
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
