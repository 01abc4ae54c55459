import type { LeftOutReason } from '../planner/why-left-out.js';

/**
 * Why work is not in a plan, and what to change.
 *
 * @example reasonInWords('no parts', { skills: [], minutes: 60 }, [{ name: 'Ada' }, { name: 'Bo' }]) // => "its parts are not there in time: have them sent sooner, or plan more days. Some of them are in the van of Ada and of Bo"
 * @example reasonInWords('handover', { skills: [], minutes: 60 }, [{ name: 'Ada' }]) // => "its parts are in the van of Ada, and who can do it has them too late after a hand-over: have them handed over sooner, or plan more days"
 * @example reasonInWords('nobody has the skill', { skills: ['Pumps'], minutes: 60 }) // => "nobody has every skill that it takes (Pumps): enter it with somebody, or send help"
 */
export function reasonInWords(
  reason: LeftOutReason,
  { skills, minutes, entry = [] }: { readonly skills: readonly string[]; readonly minutes: number; readonly entry?: readonly string[] },
  vans: readonly { readonly name: string }[] = [],
): string {
  switch (reason) {
    case 'no parts':
      return `its parts are not there in time: have them sent sooner, or plan more days${vans.length === 0 ? '' : `. Some of them are in the van of ${namesOf(vans)}`}`;
    case 'nobody has the skill':
      return skills.length === 0
        ? 'nobody can be sent: enter homes and shifts of people'
        : `nobody has every skill that it takes (${skills.join(', ')}): enter it with somebody, or send help`;
    case 'nobody with the skill works in time':
      return 'nobody who can do it works on a day on which it may be done: plan more days, or change shifts or days off';
    case 'no induction':
      return `nobody who can do it holds what the site asks of everybody who enters (${entry.join(', ')}): have somebody inducted, and enter it with their skills`;
    case 'notice':
      return 'there is no time to give the site the notice that it wants before anybody who can do it works: ask the client to have it sooner, or plan more days';
    case 'season':
      return 'the road to the site is closed in the months of the plan: plan for months in which it is open, or mend the months of the site';
    case 'not let in long enough':
      return `the site lets nobody in for the ${minutes} minutes that it takes: agree on a longer time with the client`;
    case 'ferry':
      return `the ferry leaves too little time for the ${minutes} minutes that it takes, while people are let in and before the shift ends: split the work, lengthen the shift, or hire a boat`;
    case 'no second person':
      return 'two people are needed, and no two who may enter the site work on the same day';
    case 'handover':
      return `its parts are in the van of ${namesOf(vans)}, and who can do it has them too late after a hand-over: have them handed over sooner, or plan more days`;
    case 'promise cannot be kept':
      return 'those who are to go cannot be there then: on that day they are off, on other work, or the way there and back does not fit the shift with its rest and overtime. Shift it, or send somebody else';
    case 'rest':
      return 'with the way home it ends so late that the rest before the next day is too short: shorten the rest, or give a day off after it';
    case 'overtime limit':
      return 'with the way home it takes more overtime than the week has left for a day: raise the limit, or have the site let people in earlier';
    case 'break':
      return 'it fits a day only without the break: with it the site closes, or the shift ends, before all is done. Give the break another time, have the site let people in for longer, or lengthen the shift';
    case 'order':
      return 'it comes after other work that is left out, or is done too late in the plan: find room for that, or plan more days';
    case 'on call':
      return 'it is too far for one day, and those who can do it are on call and sleep at home: plan more days, or let somebody else be on call';
    case 'costs more than to wait':
      return 'going there costs more than to wait';
    case 'no room':
      return 'other work takes the room that there is, or the way there and back does not fit a shift: plan more days, more people or a longer shift';
  }
}

const namesOf = (vans: readonly { readonly name: string }[]) => vans.map(({ name }) => name).join(' and of ');
