import { html, Html } from './html.js';

describe('a piece of the page', () => {
  it('escapes whatever is put into it, between tags and in attributes', () => {
    const title = `<img src=x onerror="alert('1')">&amp;\``;
    expect(html`<p title="${title}">${title}</p>`.text).toBe(
      '<p title="&#60;img src=x onerror=&#34;alert(&#39;1&#39;)&#34;&#62;&#38;amp;&#96;">' +
        '&#60;img src=x onerror=&#34;alert(&#39;1&#39;)&#34;&#62;&#38;amp;&#96;</p>',
    );
  });

  it('takes pieces, lists of pieces and nothing, in order', () => {
    const rows = ['a', 'b'].map((word) => html`<i>${word}</i>`);
    expect(html`<b>${rows}${null}${false}${undefined}</b>${0}`.text).toBe('<b><i>a</i><i>b</i></b>0');
    expect(html`${new Html('<b>')}`.text).toBe('<b>');
  });

  it('keeps line breaks of values, and takes those of its own source for one space', () => {
    const why = 'first\n  second';
    // Under another name, so that no formatter lays this out anew.
    const laidOut = html;
    expect(
      laidOut`<b
      title="x">${why}
      </b>`.text,
    ).toBe('<b title="x">first\n  second </b>');
  });
});
