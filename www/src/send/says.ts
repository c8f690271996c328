// What the script of a saved page says: it has no catalogue there, and is given these in the language the page was saved in.
import { english } from '../words/english.ts';

export const SAYS = {
  nothing: english('This browser does not draw in three dimensions here. The picture shows the same.'),
  failed: english('The model could not be drawn here. The picture shows the same.'),
  lost: english('The device took back what three dimensions are drawn with. Open the page again to turn the model.'),
  stage: english('Stage of the work'),
  cut: english('Cut open'),
  figures: english('Figures'),
  ways: english('How it is shown'),
  look: english('Look'),
  nearer: english('Nearer'),
  farther: english('Farther'),
  whole: english('Back to the first look'),
};
