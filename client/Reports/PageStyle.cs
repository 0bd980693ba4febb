namespace CableCatalog.Client.Reports;

/// <summary>How pages look: on a desk, on a phone and on paper, in colour and without.</summary>
/// <remarks>No character that XML would write another way may stand here: a browser reads a style as it is.</remarks>
internal static class PageStyle
{
    /// <summary>The style sheet.</summary>
    public const string Css = """

        * { box-sizing: border-box; }
        html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
        body { margin: 0 auto; max-width: 62rem; padding: 1rem 1rem 3rem; color: #1a1a1a; background: #fff;
          font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere;
          -webkit-print-color-adjust: exact; print-color-adjust: exact; }
        h1 { font-size: 1.6rem; line-height: 1.2; margin: 0.5rem 0 1rem; }
        h2 { font-size: 1.2rem; margin: 2rem 0 0.6rem; padding-top: 0.6rem; border-top: 2px solid #1f4e79; }
        h3 { font-size: 1rem; margin: 0 0 0.3rem; }
        h4 { font-size: 0.92rem; margin: 0.5rem 0 0; }
        p, ul { margin: 0.4rem 0; }
        ul { padding-left: 1.2rem; }
        .verdict { font-size: 1.15rem; font-weight: 600; padding-left: 0.8rem; border-left: 0.4rem solid #1f4e79; }
        .caution { padding: 0.5rem 0.8rem; border: 1px solid #8a3b00; background: #fff7e6; }
        .facts, figcaption { font-size: 0.92rem; }
        .plots { display: grid; gap: 1.4rem 2rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 24rem), 1fr)); }
        figure { margin: 0; max-width: 32rem; }
        svg { display: block; width: 100%; height: auto; }

        table { border-collapse: collapse; width: 100%; margin: 0.6rem 0; font-size: 0.95rem; }
        th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.8rem 0.35rem 0; border-bottom: 1px solid #bbb;
          min-width: 5.5rem; }
        tbody th { min-width: 7rem; }
        thead th { border-bottom: 2px solid #1a1a1a; vertical-align: bottom; }
        td p, td ul { margin: 0; }
        .share { display: flex; flex-wrap: wrap; align-items: center; gap: 0.2rem 0.5rem; }
        .bar { flex: none; width: 6rem; height: 0.8rem; border: 1px solid #1f4e79; background: #fff; }
        .bar span { display: block; height: 100%; background: #1f4e79; }

        svg text { fill: #1a1a1a; stroke: #fff; stroke-width: 3px; paint-order: stroke; }
        .grid { stroke: #ddd; stroke-width: 1; }
        .axis { stroke: #1a1a1a; stroke-width: 1; }
        .possible { fill: #d3e3f3; stroke: #1f4e79; stroke-width: 1; }
        .inner { fill: #8fb9df; }
        .middle { fill: none; stroke: #0b2f52; stroke-width: 2.2; }
        .sound { fill: none; stroke: #8a3b00; stroke-width: 1.7; stroke-dasharray: 7 4; }
        .soundmiddle { fill: none; stroke: #8a3b00; stroke-width: 1.7; stroke-dasharray: 1.5 3.5; }
        .bracket { fill: none; stroke: #000; stroke-width: 2; }
        .halo { fill: none; stroke: #fff; stroke-width: 5; }
        .arrowhead { fill: #000; }
        .hatched { stroke: #555; stroke-width: 1; }
        .hatchline { stroke: #888; stroke-width: 1.4; }
        .before .bracket { stroke: #555; stroke-width: 1.6; }
        .before .arrowhead { fill: #555; }
        .before .middle { stroke: #555; stroke-width: 1.8; stroke-dasharray: 10 3 2 3; }
        .before ~ .after .possible { fill-opacity: 0.5; }
        .useful { fill: #fff; stroke: #1a1a1a; stroke-width: 1.2; }
        .part { fill: #8fb9df; stroke: #1f4e79; stroke-width: 1.2; }
        .total { fill: #1f4e79; stroke: #0b2f52; stroke-width: 1.2; }
        .link { stroke: #777; stroke-width: 1; stroke-dasharray: 2 3; }
        .whisker { stroke: #000; stroke-width: 1.6; fill: none; }
        .route { fill: none; stroke: #0b2f52; stroke-width: 2.4; stroke-linejoin: round; }
        .dash1 { stroke-dasharray: 9 4; }
        .dash2 { stroke: #8a3b00; stroke-dasharray: 2 3; }
        .dash3 { stroke: #555; stroke-dasharray: 12 3 2 3; }
        .dash4 { stroke: #1f4e79; stroke-dasharray: 5 5; }
        .dash5 { stroke: #000; stroke-dasharray: 1.5 5; }
        .strip { display: inline-block; width: 3.75rem; height: 0.75rem; }
        .particulars { display: grid; gap: 0.15rem 2rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 20rem), 1fr));
          margin: 0.8rem 0; }
        .particulars div { display: flex; gap: 0.6rem; }
        .particulars dt { flex: none; width: 6rem; font-weight: 600; }
        .particulars dd { margin: 0; }
        .bills { display: grid; gap: 0.6rem 2rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 17rem), 1fr)); }
        .bills thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
        .bills td { text-align: right; white-space: nowrap; padding-right: 0; }
        .bills tbody th { font-weight: 400; }
        .bills tbody tr:last-child th { font-weight: 600; }
        .bills tbody tr:last-child { font-weight: 600; }
        .limit { stroke: #000; stroke-width: 1.6; stroke-dasharray: 3 3; }

        @media screen and (max-width: 46rem) {
          table, tbody, tr, th, td { display: block; }
          thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
          tr { padding: 0.5rem 0; border-bottom: 1px solid #777; }
          th, td, tbody th { padding: 0.15rem 0; border: 0; min-width: 0; }
          td.empty { display: none; }
          td::before { content: attr(data-heading) ": "; font-weight: 600; }
          td div { display: inline; }
          .bills tr { display: flex; justify-content: space-between; gap: 1rem; padding: 0.2rem 0; }
          .bills tbody th { flex: 1 1 0; }
          .bills td { flex: none; }
          .bills td::before { content: none; }
          .share { display: inline-flex; }
        }
        @media print {
          @page { margin: 13mm; }
          html { font-size: 8.4pt; }
          body { max-width: none; padding: 0; }
          h1 { margin-top: 0; }
          h2 { margin-top: 0.7rem; padding-top: 0.4rem; break-after: avoid; }
          h3 { break-after: avoid; }
          figure, tr, li { break-inside: avoid; }
          .plots { grid-template-columns: repeat(2, 1fr); gap: 0.7rem 1.6rem; }
          figure { max-width: 25.5rem; }
          ul { columns: 2; column-gap: 1.6rem; }
          .bills { grid-template-columns: repeat(3, 1fr); gap: 0.4rem 1.6rem; }
          .bills th, .bills td { padding-top: 0.12rem; padding-bottom: 0.12rem; }
          .particulars { grid-template-columns: repeat(2, 1fr); }
          td ul, figcaption ul { columns: 1; }
        }

        """;
}
