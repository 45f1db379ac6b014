import { whyNotAuthorised, type AnswerSituation } from './why-not-authorised.js';

const line: AnswerSituation = {
  title: 'Rear struts',
  revisionNumber: 2,
  sentAt: '2026-03-11 08:10',
  answer: null,
  answeredAt: null,
};
const answered = (answer: AnswerSituation['answer']): AnswerSituation => ({
  ...line,
  answer,
  answeredAt: '2026-03-11 09:00',
});

describe('why work may not be clocked', () => {
  it.each<[AnswerSituation, string, string]>([
    [
      line,
      'no-answer',
      'Revision 2 with "Rear struts" was sent on 2026-03-11 08:10; the owner has not answered.',
    ],
    [
      { ...line, sentAt: null },
      'not-sent',
      '"Rear struts" is in revision 2, which has not been sent to the owner.',
    ],
    [answered('declined'), 'declined', 'The owner declined "Rear struts" on 2026-03-11 09:00 (revision 2).'],
    [
      answered('deferred'),
      'deferred',
      'The owner put "Rear struts" off on 2026-03-11 09:00 (revision 2); it is not to be done now.',
    ],
    [
      answered('approved'),
      'not-released',
      '"Rear struts" was approved on 2026-03-11 09:00, but its work is not released.',
    ],
  ])('says so in words (%#)', (situation, reason, detail) => {
    expect(whyNotAuthorised(situation)).toEqual({ reason, detail });
  });
});
