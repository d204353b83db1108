// One bundle: the rungs share the bench, and a person who steps on one steps on the others.
import './rungs.css';

export { Cut } from './cut';
export { PapersRung } from './papers';
export { Water } from './water';
