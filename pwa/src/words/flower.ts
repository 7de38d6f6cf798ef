/** BBCH stages of the flower (Meier, U. (ed.), Growth stages of mono- and dicotyledonous plants, 2001): the first is open, the petals are down. */
const [FIRST_OPEN, PETALS_DOWN] = [60, 69];

/** Whether flower is open at a stage. */
export function flowerOpen(stage: number | undefined): boolean {
  return stage !== undefined && stage >= FIRST_OPEN && stage < PETALS_DOWN;
}
