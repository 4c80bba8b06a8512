/**
 * The internal temperature that ground game must reach, in °F and °C (73.9 °C, rounded up). Two figures are
 * published, and the safer one is shown for every animal: 165 °F for wild game (Outbreak of Human Trichinellosis,
 * CDC MMWR 73(20), 2024, https://www.cdc.gov/mmwr/volumes/73/wr/mm7320a2.htm; Michigan State University for
 * venison) and 160 °F for ground meat (USDA / foodsafety.gov, second-hand; Kansas State University for ground
 * venison).
 */
export const GROUND_HEAT = {
  f: 165,
  c: 74,
  source:
    '165 °F for wild game: Outbreak of Human Trichinellosis, CDC MMWR 73(20), 2024. USDA’s chart for ground meat says 160 °F; the safer figure is told.',
} as const;
