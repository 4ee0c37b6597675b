/** What `footing` alone prints: the seven things it does, one line each. */

export const OVERVIEW = `footing scores balance and fall-risk tests and helps to plan the exercises. From one small file a visit:

  1. what needs a doctor first         footing score VISIT.yaml     red flags stand at the top
  2. results against people like this  footing score VISIT.yaml     by age and sex, with the source
  3. the fall-risk pathway             footing risk VISIT.yaml      and what is missing to settle it
  4. exercise starting levels          footing score VISIT.yaml     with dose, cautions and why
  5. a letter, a page for the client   footing letter VISIT.yaml    and: footing handout VISIT.yaml
  6. real change, and who is due       footing change FOLDER        and: footing due FOLDER
  7. a whole programme                 footing cohort CLIENTS.csv   scored rows and a summary

Begin with "footing new", which asks question by question, or try: footing score examples/copd-74.yaml
All commands: footing --help. It supports a registered professional's judgement, and replaces none.
`;
