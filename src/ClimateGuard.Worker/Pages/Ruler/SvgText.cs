using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>A text element of a picture: inside code blocks of a page the template language keeps that name for itself.</summary>
public sealed class SvgText : ComponentBase
{
    /// <summary>Class of the style sheet.</summary>
    [Parameter]
    public string? Class { get; set; }

    /// <summary>Place from the left, with its unit.</summary>
    [Parameter, EditorRequired]
    public required string X { get; set; }

    /// <summary>Base line from the top, with its unit.</summary>
    [Parameter, EditorRequired]
    public required string Y { get; set; }

    /// <summary>Which end of the words stands at <see cref="X"/>: start, middle or end.</summary>
    [Parameter]
    public string Anchor { get; set; } = "middle";

    /// <summary>The words.</summary>
    [Parameter, EditorRequired]
    public required string Words { get; set; }

    /// <inheritdoc/>
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "class", Class);
        builder.AddAttribute(2, "x", X);
        builder.AddAttribute(3, "y", Y);
        builder.AddAttribute(4, "text-anchor", Anchor);
        builder.AddContent(5, Words);
        builder.CloseElement();
    }
}
