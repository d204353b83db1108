// How each rung of the ladder stands.
import type { RungState } from '../parts/ladder';
import type { Rung } from '../route';
import type { Session } from '../session';

const isOfWater = (rule: string): boolean => rule.startsWith('check.');
const isOfSetOut = (rule: string): boolean => /^(headlap|gauge|setout|bond|pitch)\./.test(rule);

export function ladderStates(session: Session): Record<Rung, RungState> {
  const { job, seen } = session;
  const unreadable = seen !== null && seen.status >= 2;
  const findings = seen?.plan?.findings ?? [];
  const worst = (mine: (rule: string) => boolean): RungState => {
    if (!seen?.plan) return 'open';
    const levels = findings.filter((one) => mine(one.rule)).map((one) => one.level);
    return levels.includes('wrong') ? 'wrong' : levels.includes('doubt') ? 'doubt' : 'filled';
  };
  const lead = worst((rule) => !isOfSetOut(rule) && !isOfWater(rule) && !rule.startsWith('survey.'));
  return {
    measure: unreadable ? 'wrong' : (job.guessed ?? []).length > 0 ? 'open' : 'filled',
    layout: worst(isOfSetOut),
    lead: (seen?.plan?.pieces ?? []).length === 0 && lead === 'filled' ? 'open' : lead,
    water: (seen?.plan?.check ?? []).length === 0 && worst(isOfWater) === 'filled' ? 'open' : worst(isOfWater),
    cut: session.cut?.job === session.readableText ? session.cut.state : 'open',
    papers: seen?.plan ? 'filled' : 'open',
  };
}
