//! The screens that the app is looked at on.

/// A screen in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// The narrowest phone still in use.
    Narrow,
    /// A phone as most people carry.
    Phone,
    /// A laptop on the counter.
    Wide,
}

impl Screen {
    /// Every screen.
    pub const ALL: [Self; 3] = [Self::Narrow, Self::Phone, Self::Wide];

    /// Its width.
    pub const fn width(self) -> u32 {
        match self {
            Self::Narrow => 320,
            Self::Phone => 360,
            Self::Wide => 1280,
        }
    }

    /// Its height.
    pub const fn height(self) -> u32 {
        match self {
            Self::Narrow => 640,
            Self::Phone => 740,
            Self::Wide => 800,
        }
    }

    /// Device pixels for each CSS pixel.
    pub const fn density(self) -> u32 {
        match self {
            Self::Narrow | Self::Phone => 2,
            Self::Wide => 1,
        }
    }

    /// Whether it is touched rather than pointed at.
    pub const fn is_touched(self) -> bool {
        matches!(self, Self::Narrow | Self::Phone)
    }

    /// Its name in the name of a picture.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Narrow => "narrow",
            Self::Phone => "phone",
            Self::Wide => "wide",
        }
    }
}
