//! The marks on aperture rings, and the stops they stand for.
//!
//! For: [`super::Aperture`], which answers from the exact series for every mark that is listed here.

/// The marks of whole stops, in thousandths, from f/0.5 on; the first is 2 stops wider than f/1.
///
/// Marks from f/1.4 to f/128 and the rule 2^(k/2): Large Format Photography Forum, thread 8513;
/// the others are usual.
pub(super) const WHOLE_STOPS: [u32; 23] = [
    500, 700, 1_000, 1_400, 2_000, 2_800, 4_000, 5_600, 8_000, 11_000, 16_000, 22_000, 32_000,
    45_000, 64_000, 90_000, 128_000, 180_000, 256_000, 360_000, 512_000, 720_000, 1_024_000,
];

/// Stops from f/1 of the first mark in [`WHOLE_STOPS`].
pub(super) const WIDEST: i32 = -2;

/// The marks between whole stops: thousandths, and sixths of a stop from f/1.
///
/// Thirds and halves from f/16 to f/64: T. Westbrook, photographic notebook. Halves from f/1.2 to
/// f/4.8: Large Format Photography Forum, thread 8513. The others are usual. 1.2 stands on both
/// scales; it is read as the half stop, which is the nearer.
pub(super) const BETWEEN: [(u32, i32); 43] = [
    (800, -4),
    (900, -2),
    (1_100, 2),
    (1_200, 3),
    (1_250, 4),
    (1_600, 8),
    (1_700, 9),
    (1_800, 10),
    (2_200, 14),
    (2_400, 15),
    (2_500, 16),
    (3_200, 20),
    (3_400, 21),
    (3_500, 22),
    (4_500, 26),
    (4_800, 27),
    (5_000, 28),
    (6_300, 32),
    (6_700, 33),
    (7_100, 34),
    (9_000, 38),
    (9_500, 39),
    (10_000, 40),
    (13_000, 44),
    (13_500, 45),
    (14_000, 46),
    (18_000, 50),
    (19_000, 51),
    (20_000, 52),
    (25_000, 56),
    (27_000, 57),
    (29_000, 58),
    (36_000, 62),
    (38_000, 63),
    (40_000, 64),
    (51_000, 68),
    (54_000, 69),
    (57_000, 70),
    (72_000, 74),
    (76_000, 75),
    (80_000, 76),
    (102_000, 80),
    (114_000, 82),
];
