//! Words that make short phrases, sorted by what can sensibly be said of them. All were chosen by reading: each is something that a
//! child can picture, and each pair that the lists allow was looked at. A word that the bank has not, or that can't be read at the
//! step, is passed over.

/// What a describing word can be said of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Of {
    Animal,
    Clothes,
    Thing,
    Ride,
    Food,
    Plant,
}

use Of::{Animal, Clothes, Food, Plant, Ride, Thing};

/// Describing words, and what they can be said of.
pub(super) const DESCRIBING: &[(&[Of], &[&str])] = &[
    (&[Animal, Clothes, Thing, Ride, Food, Plant], &["big", "small", "little"]),
    (&[Animal, Clothes, Thing, Ride], &["black", "brown", "white", "tan", "gray", "wet"]),
    (&[Clothes, Thing, Ride], &["red", "green", "blue", "pink", "yellow", "purple", "new", "old", "clean", "plain"]),
    (&[Animal], &["sad", "glad", "mad", "shy", "brave", "wild", "happy", "funny", "sleepy", "silly", "calm", "quick"]),
    (&[Animal, Ride], &["fast", "slow"]),
    (&[Animal, Clothes], &["soft"]),
    (&[Food], &["fresh", "sweet", "cold"]),
    (&[Plant], &["tall", "green"]),
];

/// Things, people's pets and the like, of which one can have one, two or three.
pub(super) const NAMING: &[(Of, &[&str])] = &[
    (
        Animal,
        &[
            "cat", "dog", "pig", "hen", "fox", "rat", "ram", "bug", "bat", "duck", "frog", "crab", "goat", "snail",
            "snake", "horse", "cow", "lamb", "chick", "crow", "swan", "moth", "whale", "shark", "bear", "lion",
            "tiger", "rabbit", "kitten", "puppy", "panda", "monkey", "slug", "skunk", "sloth", "hawk", "mule", "pony",
            "seal", "turtle", "spider", "parrot", "donkey", "camel", "robin", "clam", "squid", "bee", "cub", "pup",
            "toad",
        ],
    ),
    (
        Clothes,
        &[
            "hat", "cap", "sock", "dress", "skirt", "shirt", "coat", "belt", "glove", "scarf", "vest", "jacket",
            "mitten", "boot", "cape", "robe", "bib",
        ],
    ),
    (
        Thing,
        &[
            "cup", "box", "bag", "mug", "pan", "mat", "pen", "bell", "drum", "flag", "brush", "broom", "block", "ball",
            "doll", "kite", "clock", "lamp", "plate", "bowl", "spoon", "fork", "rug", "bed", "desk", "chair", "bench",
            "tent", "net", "stick", "rope", "key", "ring", "map", "book", "crown", "stamp", "brick", "basket",
            "blanket", "pillow", "bottle", "button", "candle", "ladder", "bucket", "fan", "tub", "pot", "lid", "pin",
        ],
    ),
    (
        Ride,
        &[
            "van", "bus", "truck", "sled", "train", "bike", "jet", "ship", "boat", "car", "cart", "wagon", "rocket",
            "tractor",
        ],
    ),
    (
        Food,
        &["plum", "grape", "peach", "nut", "bun", "cake", "pie", "bean", "fig", "muffin", "carrot", "yam", "cherry"],
    ),
    (Plant, &["tree", "plant", "bush", "flower"]),
];

/// Where something can be.
pub(super) const PLACES: &[(&str, &[&str])] = &[
    (
        "on",
        &[
            "bed", "rug", "bench", "desk", "box", "mat", "hill", "deck", "step", "dock", "shelf", "grass", "sand",
            "plate", "truck", "sled", "bus", "ship", "train", "log", "rock", "chair", "path", "track", "stand",
            "stump", "branch", "swing", "slide", "tray", "table", "pillow", "blanket", "road", "roof", "floor", "lap",
            "stage", "street", "beach", "boat", "wagon", "raft", "cliff", "map",
        ],
    ),
    (
        "in",
        &[
            "box", "bag", "van", "tent", "pond", "nest", "barn", "shed", "hut", "cup", "pan", "sink", "tub", "chest",
            "trunk", "basket", "garden", "kitchen", "cab", "can", "pool", "lake", "sea", "snow", "den", "pen", "web",
            "mud",
        ],
    ),
];

/// How many.
pub(super) const NUMBERS: &[&str] = &["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
